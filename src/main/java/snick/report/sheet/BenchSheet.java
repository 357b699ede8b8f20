package snick.report.sheet;

import java.time.Instant;
import java.util.Map;
import snick.force.budget.Conditions;
import snick.force.budget.Evaluation;
import snick.force.fit.DegreeRule;
import snick.force.reading.CalibrationData;
import snick.json.Json;
import snick.json.JsonNode;

/**
 * What a calibration was made from: readings and circumstances, raw, so that everything else can be
 * worked out again. Kept in the store beside the calibration.
 *
 * @param made when it was made
 * @param degree {@code auto} or a degree
 * @param conditions place, air and stability
 * @param data readings
 */
public record BenchSheet(Instant made, String degree, Conditions conditions, CalibrationData data) {
  private static final int FORM = 1;

  /** Works the calibration out; see {@link Evaluation#of}. */
  public Evaluation evaluate() {
    return Evaluation.of(data, conditions, DegreeRule.named(degree), made);
  }

  /** As one JSON object. */
  public Map<String, Object> json() {
    return Json.object(
        "form", FORM,
        "made", made.toString(),
        "degree", degree,
        "conditions", BenchJson.CONDITIONS.write(conditions),
        "data", BenchJson.DATA.write(data));
  }

  /** As the document that the store keeps. */
  public String text() {
    return Json.text(json());
  }

  /**
   * The sheet that {@code text} is.
   *
   * @throws RuntimeException if it is none; the message says what is wrong and where
   */
  public static BenchSheet parse(String text) {
    JsonNode node = JsonNode.of("sheet", text);
    if (node.member("form").whole() != FORM) {
      throw new IllegalArgumentException("form " + node.member("form").whole() + " is not " + FORM);
    }
    return new BenchSheet(
        Instant.parse(node.member("made").text()),
        node.member("degree").text(),
        BenchJson.CONDITIONS.read(node.member("conditions")),
        BenchJson.DATA.read(node.member("data")));
  }
}
