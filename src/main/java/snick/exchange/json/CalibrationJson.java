package snick.exchange.json;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import snick.force.budget.BudgetTerm;
import snick.force.budget.Calibration;
import snick.force.fit.CalibrationCurve;
import snick.force.fit.ForceRange;
import snick.force.mass.Distribution;
import snick.force.reading.RigSetting;
import snick.json.Json;
import snick.json.JsonNode;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.quantity.SampleRate;
import snick.store.record.Verification;

/** {@code calibration.json}: points, fit and budget of every calibration that a force came from. */
public final class CalibrationJson {
  public static final String FILE = "calibration.json";

  /** Members of a maker's document that say who made it, where, or in free words. */
  private static final Pattern PERSONAL =
      Pattern.compile(
          ".*(operator|note|comment|basis|place|site|location|latitude|longitude|height|altitude|source|serial).*",
          Pattern.CASE_INSENSITIVE);

  private CalibrationJson() {}

  /**
   * A calibration in a package; its number is its place in the list, from 1.
   *
   * @param calibration the calibration
   * @param document points, fit and procedure as its maker wrote them down, if given
   * @param verifications how it was checked with masses, oldest first
   */
  public record Item(
      Calibration calibration, Optional<String> document, List<Verification> verifications) {}

  public static Map<String, Object> of(List<Item> items, MissingForces missing, boolean personal) {
    List<Object> calibrations = new ArrayList<>();
    for (Item item : items) {
      calibrations.add(one(calibrations.size() + 1, item, personal));
    }
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("calibrations", calibrations);
    missing.addTo(json);
    return json;
  }

  private static Map<String, Object> one(int number, Item item, boolean personal) {
    Calibration c = item.calibration();
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("calibration", number);
    json.put("id", c.id());
    c.boundTo().ifPresent(rig -> json.put("rig", rig(rig)));
    json.put("made", c.made().toString());
    c.validFor().ifPresent(period -> json.put("valid_for", period.toString()));
    json.put("range_n", List.of(c.range().from().newtons(), c.range().to().newtons()));
    json.put("curve", curve(c.curve()));
    json.put("terms", c.terms().stream().map(term -> term(term, personal)).toList());
    if (personal) {
      json.put("basis", c.basis());
    }
    item.document().ifPresent(text -> json.put("document", document(text, personal)));
    if (!item.verifications().isEmpty()) {
      json.put(
          "verifications",
          item.verifications().stream().map(v -> verification(v, personal)).toList());
    }
    return json;
  }

  private static Map<String, Object> verification(Verification v, boolean personal) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("device_id", v.deviceId());
    json.put("at", v.at().toString());
    json.put("known_n", v.known().value().newtons());
    json.put("u_known_n", v.known().standardUncertainty().newtons());
    json.put("shown_n", v.shown().value().newtons());
    json.put("u_shown_n", v.shown().standardUncertainty().newtons());
    json.put("limit_n", v.limit().newtons());
    if (!v.document().isEmpty()) {
      json.put("document", document(v.document(), personal));
    }
    return json;
  }

  private static Verification readVerification(JsonNode node, String calibrationId) {
    return new Verification(
        node.member("device_id").plainText(200),
        calibrationId,
        node.member("at").instant(),
        MeasuredForce.ofNewtons(node.member("known_n").real(), node.member("u_known_n").real()),
        MeasuredForce.ofNewtons(node.member("shown_n").real(), node.member("u_shown_n").real()),
        Force.ofNewtons(node.member("limit_n").real()),
        readDocument(node.member("document")).orElse(""));
  }

  private static Map<String, Object> rig(RigSetting rig) {
    return Json.object(
        "device_id", rig.deviceId(),
        "gain", rig.gain(),
        "nominal_rate_hz", rig.nominalRate().hertz(),
        "polarity", rig.polarity());
  }

  private static Map<String, Object> curve(CalibrationCurve curve) {
    return Json.object(
        "coefficients_counts_per_n_power", curve.coefficients(),
        "covariance", curve.covariance(),
        "degrees_of_freedom", orInfinite(curve.degreesOfFreedom()));
  }

  private static Map<String, Object> term(BudgetTerm term, boolean personal) {
    return Json.object(
        "source", term.source().word(),
        "distribution", term.distribution().word(),
        "absolute_n", term.absolute().newtons(),
        "relative", term.relative(),
        "degrees_of_freedom", orInfinite(term.degreesOfFreedom()),
        "basis", Json.when(personal, term.basis()));
  }

  private static Object orInfinite(double value) {
    return Double.isInfinite(value) ? "INF" : (Object) value;
  }

  private static Object document(String text, boolean personal) {
    try {
      Object document = Json.read(text);
      return personal ? document : withoutPersonal(document);
    } catch (IllegalArgumentException e) {
      return personal ? text : "left out: free text";
    }
  }

  private static Object withoutPersonal(Object value) {
    if (value instanceof Map<?, ?> map) {
      Map<String, Object> kept = new LinkedHashMap<>();
      map.forEach(
          (name, member) -> {
            if (!PERSONAL.matcher(name.toString()).matches()) {
              kept.put(name.toString(), withoutPersonal(member));
            }
          });
      return kept;
    }
    return value instanceof List<?> list
        ? list.stream().map(CalibrationJson::withoutPersonal).toList()
        : value;
  }

  public static List<Item> read(JsonNode root) {
    List<Item> items = new ArrayList<>();
    for (JsonNode node : root.member("calibrations").elements()) {
      if (node.member("calibration").whole() != items.size() + 1) {
        throw new RefusedPackage(
            node.place() + ": calibrations are not numbered from 1; ask the sender");
      }
      items.add(node.as(CalibrationJson::item));
    }
    return items;
  }

  private static Item item(JsonNode node) {
    List<JsonNode> range = node.member("range_n").elements();
    if (range.size() != 2) {
      throw new RefusedPackage(node.place() + ".range_n has not two numbers; ask the sender");
    }
    Calibration calibration =
        new Calibration(
            name(node.member("id")),
            node.member("rig").present()
                ? Optional.of(node.member("rig").as(CalibrationJson::setting))
                : Optional.empty(),
            node.member("made").instant(),
            node.member("valid_for").optionalText().map(CalibrationJson::period),
            node.member("curve").as(CalibrationJson::readCurve),
            new ForceRange(
                Force.ofNewtons(range.get(0).real()), Force.ofNewtons(range.get(1).real())),
            node.member("terms").elements().stream()
                .map(term -> term.as(CalibrationJson::readTerm))
                .toList(),
            node.member("basis").textOr(""));
    JsonNode checks = node.member("verifications");
    List<Verification> verifications =
        checks.present()
            ? checks.elements().stream()
                .map(v -> v.as(n -> readVerification(n, calibration.id())))
                .toList()
            : List.of();
    return new Item(calibration, readDocument(node.member("document")), verifications);
  }

  private static String name(JsonNode id) {
    String name = id.plainText(120);
    if (name.isBlank()) {
      throw new RefusedPackage(id.place() + " is empty; ask the sender");
    }
    return name;
  }

  private static Duration period(String text) {
    try {
      Duration period = Duration.parse(text);
      return Duration.ofNanos(period.toNanos());
    } catch (java.time.DateTimeException e) {
      throw new IllegalArgumentException(
          "period '" + RefusedPackage.shown(text) + "' is not in the form PT24H", e);
    }
  }

  private static RigSetting setting(JsonNode node) {
    return new RigSetting(
        node.member("device_id").text(),
        node.member("gain").integer(),
        new SampleRate(node.member("nominal_rate_hz").real()),
        node.member("polarity").integer());
  }

  private static CalibrationCurve readCurve(JsonNode node) {
    return new CalibrationCurve(
        reals(node.member("coefficients_counts_per_n_power")),
        node.member("covariance").elements().stream()
            .map(CalibrationJson::reals)
            .toArray(double[][]::new),
        node.member("degrees_of_freedom").realOrInfinite());
  }

  private static double[] reals(JsonNode list) {
    return list.elements().stream().mapToDouble(JsonNode::real).toArray();
  }

  private static BudgetTerm readTerm(JsonNode node) {
    return new BudgetTerm(
        node.member("source").word(BudgetTerm.Source.class),
        node.member("distribution").word(Distribution.class),
        Force.ofNewtons(node.member("absolute_n").real()),
        node.member("relative").real(),
        node.member("degrees_of_freedom").realOrInfinite(),
        node.member("basis").textOr(""));
  }

  private static Optional<String> readDocument(JsonNode node) {
    if (!node.present() || node.value() instanceof String) {
      return node.optionalText();
    }
    return Optional.of(Json.whole(node.value()));
  }
}
