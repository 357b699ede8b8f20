package snick.report.sheet;

import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Map;
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
import snick.json.Json;
import snick.json.JsonNode;
import snick.quantity.Mass;
import snick.quantity.SampleRate;

/** What is read and stated at the bench, as JSON and back; every digit kept. */
final class BenchJson {
  private BenchJson() {}

  static Map<String, Object> of(RigSetting setting) {
    return Json.object(
        "device", setting.deviceId(),
        "gain", setting.gain(),
        "nominal_rate_hz", setting.nominalRate().hertz(),
        "polarity", setting.polarity());
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
    return Json.object(
        "name", mass.name(),
        "conventional_mass_kg", mass.conventionalMass().kilograms(),
        "u_kg", mass.standardUncertainty().kilograms(),
        "distribution", mass.distribution().word(),
        "density_kg_m3", mass.densityKilogramsPerCubicMetre(),
        "basis", mass.basis());
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
    return Json.object(
        "mean_counts", reading.meanCounts(),
        "sd_counts", reading.sdCounts(),
        "samples", reading.samples(),
        "from_ns", reading.fromNanos(),
        "to_ns", reading.toNanos());
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
    return Json.object(
        "zero_before", of(run.zeroBefore()),
        "loaded", run.loaded().stream().map(BenchJson::of).toList(),
        "zero_after", of(run.zeroAfter()));
  }

  private static Map<String, Object> of(CalibrationRun.Loaded loaded) {
    return Json.object(
        "load", of(loaded.load()),
        "direction", loaded.direction().word(),
        "reading", of(loaded.reading()));
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
    return Json.object(
        "setting", of(data.setting()),
        "runs", data.runs().stream().map(BenchJson::of).toList(),
        "hold",
            data.hold()
                .map(
                    hold ->
                        Json.object(
                            "load", of(hold.load()), "readings", readings(hold.readings()))));
  }

  static List<Map<String, Object>> readings(List<HeldReading> readings) {
    return readings.stream().map(BenchJson::of).toList();
  }

  static CalibrationData data(JsonNode node) {
    return new CalibrationData(
        setting(node.member("setting")),
        node.member("runs").elements().stream().map(BenchJson::run).toList(),
        node.member("hold").optional(BenchJson::hold));
  }

  private static CalibrationData.CreepHold hold(JsonNode node) {
    return new CalibrationData.CreepHold(
        load(node.member("load")), readings(node.member("readings")));
  }

  static List<HeldReading> readings(JsonNode list) {
    return list.elements().stream().map(BenchJson::reading).toList();
  }

  static Map<String, Object> of(Conditions conditions) {
    Gravity gravity = conditions.gravity();
    AirDensity air = conditions.air();
    Conditions.Stability stability = conditions.stability();
    EdgeGeometry geometry = conditions.geometry();
    return Json.object(
        "gravity_m_s2", gravity.metresPerSecondSquared(),
        "u_gravity_m_s2", gravity.standardUncertainty(),
        "distribution", gravity.distribution().word(),
        "gravity_basis", gravity.basis(),
        "air_kg_m3", air.kilogramsPerCubicMetre(),
        "u_air_kg_m3", air.standardUncertainty(),
        "air_basis", air.basis(),
        "relative_per_kelvin", stability.relativePerKelvin(),
        "half_width_kelvin", stability.halfWidthKelvin(),
        "relative_per_year", stability.relativePerYear(),
        "valid_for", stability.validFor().map(Duration::toString),
        "half_width_of_place", geometry.place(),
        "pull_degrees", geometry.pullDegrees(),
        "tilt_degrees", geometry.tiltDegrees(),
        "half_width_of_friction", geometry.friction());
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
