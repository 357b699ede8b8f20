package snick.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import snick.journal.Blade;
import snick.journal.FilamentLot;
import snick.journal.Inspection;
import snick.journal.SharpeningStep;

/**
 * What was noted, in words.
 *
 * @param personal whether free notes are told too
 */
record Noted(boolean personal) {
  String blade(Blade blade) {
    List<String> parts = new ArrayList<>(List.of(blade.label()));
    text(parts, blade.steel());
    number(parts, blade.hardnessHrc(), " HRC");
    number(parts, blade.edgeAngleDegrees(), "° included angle");
    number(parts, blade.thicknessBehindEdgeMm(), " mm thick behind the edge");
    number(parts, blade.edgeLengthMm(), " mm long edge");
    note(parts, blade.notes());
    return String.join(", ", parts);
  }

  static String lot(FilamentLot lot) {
    return lot.lot() + ", " + lot.words();
  }

  String steps(List<SharpeningStep> steps) {
    return steps.isEmpty() ? "–" : steps.stream().map(this::step).collect(Collectors.joining("\n"));
  }

  private String step(SharpeningStep step) {
    List<String> parts = new ArrayList<>(List.of(step.abrasive()));
    step.grit().ifPresent(grit -> parts.add("grit " + grit));
    number(parts, step.micron(), " µm");
    step.direction().ifPresent(d -> parts.add(word(d)));
    step.strokesPerSide().ifPresent(n -> parts.add(n + " strokes a side"));
    step.pressure().ifPresent(p -> parts.add(word(p) + " pressure"));
    note(parts, step.note());
    return String.join(", ", parts);
  }

  String inspections(List<Inspection> inspections) {
    return inspections.isEmpty()
        ? "not inspected"
        : inspections.stream().map(this::inspection).collect(Collectors.joining("\n"));
  }

  private String inspection(Inspection look) {
    List<String> parts = new ArrayList<>(List.of(look.method().plain()));
    number(parts, look.magnification(), "x");
    parts.add(look.side().word() + (look.side() == snick.journal.Side.BOTH ? " sides" : " side"));
    look.place().ifPresent(place -> parts.add(place.plain()));
    note(parts, look.note());
    return String.join(", ", parts) + ": " + look.finding().plain();
  }

  private static String word(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT).replace('_', ' ');
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

  private static void number(List<String> parts, OptionalDouble value, String unit) {
    value.ifPresent(v -> parts.add(plain(v) + unit));
  }

  /** A number without trailing zeros. */
  static String plain(double value) {
    return Shown.fixed(value, 3).replaceFirst("\\.?0+$", "");
  }
}
