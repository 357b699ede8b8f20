package snick.report.sheet;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;
import snick.force.budget.Conditions;
import snick.force.budget.Evaluation;
import snick.force.fit.DegreeRule;
import snick.force.reading.CalibrationData;

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
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("form", FORM);
    object.put("made", made.toString());
    object.put("degree", degree);
    object.put("conditions", BenchJson.of(conditions));
    object.put("data", BenchJson.of(data));
    return object;
  }

  /** As the document that the store keeps. */
  public String text() {
    try {
      return JSON.std.asString(json());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * The sheet that {@code text} is.
   *
   * @throws RuntimeException if it is none; the message says what is wrong and where
   */
  public static BenchSheet parse(String text) {
    JsonNode node = JsonNode.parse(text);
    if (node.whole("form") != FORM) {
      throw new IllegalArgumentException("form " + node.whole("form") + " is not " + FORM);
    }
    return new BenchSheet(
        Instant.parse(node.text("made")),
        node.text("degree"),
        BenchJson.conditions(node.object("conditions")),
        BenchJson.data(node.object("data")));
  }
}
