package snick.report.sheet;

import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
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
import snick.quantity.Mass;
import snick.quantity.SampleRate;

/** What is read and stated at the bench, as JSON and back; every digit kept. */
final class BenchJson {
  private BenchJson() {}

  static Map<String, Object> of(RigSetting setting) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("device", setting.deviceId());
    object.put("gain", setting.gain());
    object.put("nominal_rate_hz", setting.nominalRate().hertz());
    object.put("polarity", setting.polarity());
    return object;
  }

  static RigSetting setting(JsonNode node) {
    return new RigSetting(
        node.text("device"),
        Math.toIntExact(node.whole("gain")),
        new SampleRate(node.number("nominal_rate_hz")),
        Math.toIntExact(node.whole("polarity")));
  }

  static Map<String, Object> of(Load load) {
    return Map.of("masses", load.masses().stream().map(BenchJson::of).toList());
  }

  static Load load(JsonNode node) {
    return new Load(node.objects("masses").stream().map(BenchJson::mass).toList());
  }

  private static Map<String, Object> of(ReferenceMass mass) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("name", mass.name());
    object.put("conventional_mass_kg", mass.conventionalMass().kilograms());
    object.put("u_kg", mass.standardUncertainty().kilograms());
    object.put("distribution", mass.distribution().word());
    object.put("density_kg_m3", mass.densityKilogramsPerCubicMetre());
    object.put("basis", mass.basis());
    return object;
  }

  private static ReferenceMass mass(JsonNode node) {
    return new ReferenceMass(
        node.text("name"),
        new Mass(node.number("conventional_mass_kg")),
        new Mass(node.number("u_kg")),
        distribution(node),
        node.number("density_kg_m3"),
        node.text("basis"));
  }

  private static Distribution distribution(JsonNode node) {
    return Distribution.valueOf(node.text("distribution").toUpperCase(Locale.ROOT));
  }

  static Map<String, Object> of(HeldReading reading) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("mean_counts", reading.meanCounts());
    object.put("sd_counts", reading.sdCounts());
    object.put("samples", reading.samples());
    object.put("from_ns", reading.fromNanos());
    object.put("to_ns", reading.toNanos());
    return object;
  }

  static HeldReading reading(JsonNode node) {
    return new HeldReading(
        node.number("mean_counts"),
        node.number("sd_counts"),
        Math.toIntExact(node.whole("samples")),
        node.whole("from_ns"),
        node.whole("to_ns"));
  }

  static Map<String, Object> of(CalibrationRun run) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("zero_before", of(run.zeroBefore()));
    object.put("loaded", run.loaded().stream().map(BenchJson::of).toList());
    object.put("zero_after", of(run.zeroAfter()));
    return object;
  }

  private static Map<String, Object> of(CalibrationRun.Loaded loaded) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("load", of(loaded.load()));
    object.put("direction", loaded.direction().word());
    object.put("reading", of(loaded.reading()));
    return object;
  }

  static CalibrationRun run(JsonNode node) {
    return new CalibrationRun(
        reading(node.object("zero_before")),
        node.objects("loaded").stream().map(BenchJson::loaded).toList(),
        reading(node.object("zero_after")));
  }

  private static CalibrationRun.Loaded loaded(JsonNode node) {
    return new CalibrationRun.Loaded(
        load(node.object("load")),
        Direction.named(node.text("direction")),
        reading(node.object("reading")));
  }

  static Map<String, Object> of(CalibrationData data) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("setting", of(data.setting()));
    object.put("runs", data.runs().stream().map(BenchJson::of).toList());
    data.hold()
        .ifPresent(
            hold ->
                object.put(
                    "hold",
                    Map.of("load", of(hold.load()), "readings", readings(hold.readings()))));
    return object;
  }

  static List<Map<String, Object>> readings(List<HeldReading> readings) {
    return readings.stream().map(BenchJson::of).toList();
  }

  static CalibrationData data(JsonNode node) {
    Optional<CalibrationData.CreepHold> hold =
        node.has("hold")
            ? Optional.of(
                new CalibrationData.CreepHold(
                    load(node.object("hold").object("load")),
                    node.object("hold").objects("readings").stream()
                        .map(BenchJson::reading)
                        .toList()))
            : Optional.empty();
    return new CalibrationData(
        setting(node.object("setting")),
        node.objects("runs").stream().map(BenchJson::run).toList(),
        hold);
  }

  static Map<String, Object> of(Conditions conditions) {
    Map<String, Object> object = new LinkedHashMap<>();
    Gravity gravity = conditions.gravity();
    object.put("gravity_m_s2", gravity.metresPerSecondSquared());
    object.put("u_gravity_m_s2", gravity.standardUncertainty());
    object.put("distribution", gravity.distribution().word());
    object.put("gravity_basis", gravity.basis());
    object.put("air_kg_m3", conditions.air().kilogramsPerCubicMetre());
    object.put("u_air_kg_m3", conditions.air().standardUncertainty());
    object.put("air_basis", conditions.air().basis());
    Conditions.Stability stability = conditions.stability();
    object.put("relative_per_kelvin", stability.relativePerKelvin());
    object.put("half_width_kelvin", stability.halfWidthKelvin());
    object.put("relative_per_year", stability.relativePerYear());
    stability.validFor().ifPresent(d -> object.put("valid_for", d.toString()));
    object.put("half_width_of_place", conditions.geometry().place());
    object.put("pull_degrees", conditions.geometry().pullDegrees());
    object.put("tilt_degrees", conditions.geometry().tiltDegrees());
    object.put("half_width_of_friction", conditions.geometry().friction());
    return object;
  }

  static Conditions conditions(JsonNode node) {
    return new Conditions(
        new Gravity(
            node.number("gravity_m_s2"),
            node.number("u_gravity_m_s2"),
            distribution(node),
            node.text("gravity_basis")),
        new AirDensity(
            node.number("air_kg_m3"), node.number("u_air_kg_m3"), node.text("air_basis")),
        new Conditions.Stability(
            node.number("relative_per_kelvin"),
            node.number("half_width_kelvin"),
            node.number("relative_per_year"),
            node.optionalText("valid_for").map(Duration::parse)),
        new EdgeGeometry(
            node.number("half_width_of_place"),
            node.number("pull_degrees"),
            node.number("tilt_degrees"),
            node.number("half_width_of_friction")));
  }
}
