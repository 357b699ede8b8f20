package snick.report.plot;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import snick.journal.Blade;
import snick.journal.FilamentLot;
import snick.journal.Inspection;
import snick.journal.SharpeningStep;
import snick.phrase.Words;

/**
 * What was noted, in words.
 *
 * @param personal whether free notes are told too
 */
public record NotedInWords(boolean personal, Words words) {
  public String blade(Blade blade) {
    List<String> parts = new ArrayList<>(List.of(blade.label()));
    text(parts, blade.steel());
    number(parts, blade.hardnessHrc(), "report.hardness");
    number(parts, blade.edgeAngleDegrees(), "report.angle");
    number(parts, blade.thicknessBehindEdgeMm(), "report.thickness");
    number(parts, blade.edgeLengthMm(), "report.length");
    note(parts, blade.notes());
    return String.join(", ", parts);
  }

  public String lot(FilamentLot lot) {
    return lot.lot() + ", " + words.say(lot.told());
  }

  public String steps(List<SharpeningStep> steps) {
    return steps.isEmpty() ? "–" : steps.stream().map(this::step).collect(Collectors.joining("\n"));
  }

  private String step(SharpeningStep step) {
    List<String> parts = new ArrayList<>(List.of(step.abrasive()));
    step.grain().grit().ifPresent(grit -> parts.add(words.say("step.grit_of", "n", grit)));
    number(parts, step.grain().micron(), "step.micron_of");
    step.direction().ifPresent(d -> parts.add(words.named("direction", d)));
    step.strokesPerSide().ifPresent(n -> parts.add(words.count("step.strokes_of", n)));
    step.pressure()
        .ifPresent(p -> parts.add(words.say("report.pressure", "how", words.named("pressure", p))));
    note(parts, step.note());
    return String.join(", ", parts);
  }

  public String inspections(List<Inspection> inspections) {
    return inspections.isEmpty()
        ? words.say("stage.not_inspected")
        : inspections.stream().map(this::inspection).collect(Collectors.joining("\n"));
  }

  private String inspection(Inspection look) {
    List<String> parts = new ArrayList<>(List.of(words.named("method", look.look().method())));
    number(parts, look.look().magnification(), "report.magnified");
    parts.add(words.named("side", look.side()));
    look.place().ifPresent(place -> parts.add(words.say(place.told())));
    note(parts, look.note());
    return String.join(", ", parts) + ": " + words.named("finding", look.finding());
  }

  private static void text(List<String> parts, String text) {
    if (!text.isBlank()) {
      parts.add(text);
    }
  }

  private void note(List<String> parts, String note) {
    if (personal && !note.isBlank()) {
      parts.add("“" + note.strip() + "”");
    }
  }

  private void number(List<String> parts, OptionalDouble value, String key) {
    value.ifPresent(v -> parts.add(words.say(key, "n", plain(v))));
  }

  /** A number without trailing zeros. */
  public static String plain(double value) {
    return Shown.fixed(value, 3).replaceFirst("\\.?0+$", "");
  }
}
