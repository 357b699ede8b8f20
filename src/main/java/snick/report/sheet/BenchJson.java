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
import snick.json.JsonNode;
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
        node.member("device").text(),
        node.member("gain").integer(),
        new SampleRate(node.member("nominal_rate_hz").real()),
        node.member("polarity").integer());
  }

  static Map<String, Object> of(Load load) {
    return Map.of("masses", load.masses().stream().map(BenchJson::of).toList());
  }

  static Load load(JsonNode node) {
    return new Load(node.member("masses").elements().stream().map(BenchJson::mass).toList());
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
        node.member("name").text(),
        new Mass(node.member("conventional_mass_kg").real()),
        new Mass(node.member("u_kg").real()),
        distribution(node),
        node.member("density_kg_m3").real(),
        node.member("basis").text());
  }

  private static Distribution distribution(JsonNode node) {
    return Distribution.valueOf(node.member("distribution").text().toUpperCase(Locale.ROOT));
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
        node.member("mean_counts").real(),
        node.member("sd_counts").real(),
        node.member("samples").integer(),
        node.member("from_ns").whole(),
        node.member("to_ns").whole());
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
        reading(node.member("zero_before")),
        node.member("loaded").elements().stream().map(BenchJson::loaded).toList(),
        reading(node.member("zero_after")));
  }

  private static CalibrationRun.Loaded loaded(JsonNode node) {
    return new CalibrationRun.Loaded(
        load(node.member("load")),
        Direction.named(node.member("direction").text()),
        reading(node.member("reading")));
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
        node.member("hold").present()
            ? Optional.of(
                new CalibrationData.CreepHold(
                    load(node.member("hold").member("load")),
                    node.member("hold").member("readings").elements().stream()
                        .map(BenchJson::reading)
                        .toList()))
            : Optional.empty();
    return new CalibrationData(
        setting(node.member("setting")),
        node.member("runs").elements().stream().map(BenchJson::run).toList(),
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
            node.member("gravity_m_s2").real(),
            node.member("u_gravity_m_s2").real(),
            distribution(node),
            node.member("gravity_basis").text()),
        new AirDensity(
            node.member("air_kg_m3").real(),
            node.member("u_air_kg_m3").real(),
            node.member("air_basis").text()),
        new Conditions.Stability(
            node.member("relative_per_kelvin").real(),
            node.member("half_width_kelvin").real(),
            node.member("relative_per_year").real(),
            node.member("valid_for").optionalText().map(Duration::parse)),
        new EdgeGeometry(
            node.member("half_width_of_place").real(),
            node.member("pull_degrees").real(),
            node.member("tilt_degrees").real(),
            node.member("half_width_of_friction").real()));
  }
}
