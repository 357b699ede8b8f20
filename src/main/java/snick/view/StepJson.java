package snick.view;

import java.time.Instant;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import snick.journal.EdgeDirection;
import snick.journal.Pressure;
import snick.journal.SharpeningStep;
import snick.journal.SharpeningStep.Grain;
import snick.journal.name.Field;
import snick.json.Json;
import snick.phrase.NotAccepted;
import snick.view.http.Fields;

/** Sharpening steps as JSON, out and in. Pure. */
final class StepJson {
  private StepJson() {}

  /** What was done; when and for which stage is left to the caller. */
  static Map<String, Object> of(SharpeningStep step) {
    return Json.object(
        "abrasive", step.abrasive(),
        "grit", step.grain().grit(),
        "micron", step.grain().micron(),
        "direction", step.direction().map(EdgeDirection::word),
        "strokes_per_side", step.strokesPerSide(),
        "pressure", step.pressure().map(Pressure::word),
        "note", Json.when(!step.note().isEmpty(), step.note()));
  }

  /** The step that was sent, noted {@code at} that time as what led to {@code stage}. */
  static SharpeningStep read(Fields fields, Instant at, String stage) {
    return new SharpeningStep(
        at,
        stage,
        fields.needed("abrasive"),
        new Grain(whole(fields, "grit"), fields.number("micron")),
        fields.text("direction").map(EdgeDirection::parse),
        whole(fields, "strokes_per_side"),
        fields.text("pressure").map(Pressure::parse),
        fields.text("note").orElse(""));
  }

  private static OptionalInt whole(Fields fields, String name) {
    OptionalDouble number = fields.number(name);
    if (number.isEmpty()) {
      return OptionalInt.empty();
    }
    double value = number.getAsDouble();
    if (value != Math.rint(value) || Math.abs(value) > Integer.MAX_VALUE) {
      throw new NotAccepted("refused.no_whole_number", "name", Field.called(name), "value", value);
    }
    return OptionalInt.of((int) value);
  }
}
