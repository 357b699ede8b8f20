package snick.report.sheet;

import java.time.Duration;
import snick.force.budget.Conditions;
import snick.force.budget.EdgeGeometry;
import snick.force.mass.AirDensity;
import snick.force.mass.Distribution;
import snick.force.mass.Gravity;
import snick.force.mass.Load;
import snick.force.mass.ReferenceMass;
import snick.force.reading.CalibrationData;
import snick.force.reading.CalibrationRun;
import snick.force.reading.Direction;
import snick.force.reading.HeldReading;
import snick.force.reading.RigSetting;
import snick.json.JsonForm;
import snick.json.JsonForm.Part;
import snick.json.JsonNode;
import snick.quantity.Mass;
import snick.quantity.SampleRate;

/** What is read and stated at the bench, as JSON and back; every digit kept. */
final class BenchJson {
  static final JsonForm<RigSetting> SETTING =
      JsonForm.of(
          RigSetting.class,
          JsonForm.member("device", JsonNode::text),
          JsonForm.member("gain", JsonNode::integer),
          JsonForm.part(
              "nominal_rate_hz", SampleRate::hertz, hertz -> new SampleRate(hertz.real())),
          JsonForm.member("polarity", JsonNode::integer));

  private static final JsonForm<ReferenceMass> MASS =
      JsonForm.of(
          ReferenceMass.class,
          JsonForm.member("name", JsonNode::text),
          kilograms("conventional_mass_kg"),
          kilograms("u_kg"),
          JsonForm.word("distribution", Distribution.class),
          JsonForm.member("density_kg_m3", JsonNode::real),
          JsonForm.member("basis", JsonNode::text));

  static final JsonForm<Load> LOAD = JsonForm.of(Load.class, MASS.listIn("masses"));

  static final JsonForm<HeldReading> READING =
      JsonForm.of(
          HeldReading.class,
          JsonForm.member("mean_counts", JsonNode::real),
          JsonForm.member("sd_counts", JsonNode::real),
          JsonForm.member("samples", JsonNode::integer),
          JsonForm.member("from_ns", JsonNode::whole),
          JsonForm.member("to_ns", JsonNode::whole));

  private static final JsonForm<CalibrationRun.Loaded> LOADED =
      JsonForm.of(
          CalibrationRun.Loaded.class,
          LOAD.in("load"),
          JsonForm.word("direction", Direction.class),
          READING.in("reading"));

  static final JsonForm<CalibrationRun> RUN =
      JsonForm.of(
          CalibrationRun.class,
          READING.in("zero_before"),
          LOADED.listIn("loaded"),
          READING.in("zero_after"));

  private static final JsonForm<CalibrationData.CreepHold> HOLD =
      JsonForm.of(CalibrationData.CreepHold.class, LOAD.in("load"), READING.listIn("readings"));

  static final JsonForm<CalibrationData> DATA =
      JsonForm.of(
          CalibrationData.class,
          SETTING.in("setting"),
          RUN.listIn("runs"),
          HOLD.optionallyIn("hold"));

  private static final JsonForm<Gravity> GRAVITY =
      JsonForm.of(
          Gravity.class,
          JsonForm.member("gravity_m_s2", JsonNode::real),
          JsonForm.member("u_gravity_m_s2", JsonNode::real),
          JsonForm.word("distribution", Distribution.class),
          JsonForm.member("gravity_basis", JsonNode::text));

  private static final JsonForm<AirDensity> AIR =
      JsonForm.of(
          AirDensity.class,
          JsonForm.member("air_kg_m3", JsonNode::real),
          JsonForm.member("u_air_kg_m3", JsonNode::real),
          JsonForm.member("air_basis", JsonNode::text));

  private static final JsonForm<Conditions.Stability> STABILITY =
      JsonForm.of(
          Conditions.Stability.class,
          JsonForm.member("relative_per_kelvin", JsonNode::real),
          JsonForm.member("half_width_kelvin", JsonNode::real),
          JsonForm.member("relative_per_year", JsonNode::real),
          JsonForm.optional(
              "valid_for", Duration::toString, period -> Duration.parse(period.text())));

  private static final JsonForm<EdgeGeometry> GEOMETRY =
      JsonForm.of(
          EdgeGeometry.class,
          JsonForm.member("half_width_of_place", JsonNode::real),
          JsonForm.member("pull_degrees", JsonNode::real),
          JsonForm.member("tilt_degrees", JsonNode::real),
          JsonForm.member("half_width_of_friction", JsonNode::real));

  static final JsonForm<Conditions> CONDITIONS =
      JsonForm.of(
          Conditions.class,
          GRAVITY.amongTheOthers(),
          AIR.amongTheOthers(),
          STABILITY.amongTheOthers(),
          GEOMETRY.amongTheOthers());

  private BenchJson() {}

  private static Part<Mass> kilograms(String name) {
    return JsonForm.part(name, Mass::kilograms, kilograms -> new Mass(kilograms.real()));
  }
}
