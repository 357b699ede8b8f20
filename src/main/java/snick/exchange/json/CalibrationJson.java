package snick.exchange.json;

import java.time.Duration;
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
import snick.json.JsonForm;
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

  private static final JsonForm<RigSetting> RIG =
      JsonForm.of(
          RigSetting.class,
          JsonForm.member("device_id", JsonNode::text),
          JsonForm.member("gain", JsonNode::integer),
          JsonForm.part("nominal_rate_hz", SampleRate::hertz, RigJson::rate),
          JsonForm.member("polarity", JsonNode::integer));

  private static final JsonForm<BudgetTerm> TERM =
      JsonForm.of(
          BudgetTerm.class,
          JsonForm.word("source", BudgetTerm.Source.class),
          JsonForm.word("distribution", Distribution.class),
          JsonForm.part("absolute_n", Force::newtons, newtons -> Force.ofNewtons(newtons.real())),
          JsonForm.member("relative", JsonNode::real),
          JsonForm.part(
              "degrees_of_freedom", CalibrationJson::orInfinite, JsonNode::realOrInfinite),
          JsonForm.member("basis", basis -> basis.textOr("")));

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
    Map<String, Object> json =
        Json.object(
            "calibrations", Numbered.write(items, (number, item) -> one(number, item, personal)));
    missing.addTo(json);
    return json;
  }

  private static Map<String, Object> one(int number, Item item, boolean personal) {
    Calibration c = item.calibration();
    List<Verification> checks = item.verifications();
    return Json.object(
        "calibration", number,
        "id", c.id(),
        "rig", c.boundTo().map(RIG::write),
        "made", c.made().toString(),
        "valid_for", c.validFor().map(Duration::toString),
        "range_n", List.of(c.range().from().newtons(), c.range().to().newtons()),
        "curve", curve(c.curve()),
        "terms", c.terms().stream().map(term -> term(term, personal)).toList(),
        "basis", Json.when(personal, c.basis()),
        "document", item.document().map(text -> document(text, personal)),
        "verifications",
            Json.when(
                !checks.isEmpty(), checks.stream().map(v -> verification(v, personal)).toList()));
  }

  private static Map<String, Object> verification(Verification v, boolean personal) {
    Optional<String> document = Json.when(!v.document().isEmpty(), v.document());
    return Json.object(
        "device_id", v.deviceId(),
        "at", v.at().toString(),
        "known_n", v.known().value().newtons(),
        "u_known_n", v.known().standardUncertainty().newtons(),
        "shown_n", v.shown().value().newtons(),
        "u_shown_n", v.shown().standardUncertainty().newtons(),
        "limit_n", v.limit().newtons(),
        "document", document.map(text -> document(text, personal)));
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

  private static Map<String, Object> curve(CalibrationCurve curve) {
    return Json.object(
        "coefficients_counts_per_n_power", curve.coefficients(),
        "covariance", curve.covariance(),
        "degrees_of_freedom", orInfinite(curve.degreesOfFreedom()));
  }

  private static Map<String, Object> term(BudgetTerm term, boolean personal) {
    Map<String, Object> json = TERM.write(term);
    return personal ? json : Json.without(json, "basis");
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
    return Numbered.read(root, "calibrations", "calibration", CalibrationJson::item);
  }

  private static Item item(JsonNode node) {
    List<JsonNode> range = node.member("range_n").elements();
    if (range.size() != 2) {
      throw new RefusedPackage(node.place() + ".range_n has not two numbers; ask the sender");
    }
    Calibration calibration =
        new Calibration(
            name(node.member("id")),
            node.member("rig").optional(rig -> rig.as(RIG::read)),
            node.member("made").instant(),
            node.member("valid_for").optionalText().map(CalibrationJson::period),
            node.member("curve").as(CalibrationJson::readCurve),
            new ForceRange(
                Force.ofNewtons(range.get(0).real()), Force.ofNewtons(range.get(1).real())),
            node.member("terms").each(TERM::read),
            node.member("basis").textOr(""));
    List<Verification> verifications =
        node.member("verifications")
            .optional(checks -> checks.each(check -> readVerification(check, calibration.id())))
            .orElse(List.of());
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

  private static Optional<String> readDocument(JsonNode node) {
    if (!node.present() || node.value() instanceof String) {
      return node.optionalText();
    }
    return Optional.of(Json.whole(node.value()));
  }
}
