package snick.cli.journal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Said;
import snick.cli.terminal.WallTime;
import snick.journal.Amendment;
import snick.journal.Blade;
import snick.journal.CutPlacement;
import snick.journal.EdgeDirection;
import snick.journal.Entry;
import snick.journal.FilamentLot;
import snick.journal.Inspection;
import snick.journal.NextPlace;
import snick.journal.Place;
import snick.journal.Pressure;
import snick.journal.Session;
import snick.journal.SharpeningStep;
import snick.journal.StageEntry;

/** What stands in the journal, each in one line for people; people's text made inert. */
public final class JournalText {

  private JournalText() {}

  /** A number without trailing zeros; nothing if there is none. */
  static String number(OptionalDouble value) {
    return value.isPresent() ? number(value.getAsDouble()) : "";
  }

  /** A number with at most three decimals, without trailing zeros. */
  public static String number(double value) {
    String digits = Numbers.fixed(value, 3);
    return digits.replaceAll("\\.?0+$", "");
  }

  static String blade(Blade blade) {
    List<String> parts = new ArrayList<>(List.of("blade '" + blade.label() + "'"));
    addText(parts, "", blade.steel());
    add(parts, blade.hardnessHrc(), " HRC");
    add(parts, blade.edgeAngleDegrees(), "° edge");
    add(parts, blade.thicknessBehindEdgeMm(), " mm behind the edge");
    add(parts, blade.edgeLengthMm(), " mm long");
    add(parts, blade.marginGf(), " gf margin");
    addText(parts, "", blade.notes());
    return line(parts);
  }

  /** What is noted of a filament lot. */
  public static String lot(FilamentLot lot) {
    return line(List.of("lot '" + lot.lot() + "'", Said.raw(lot.told())));
  }

  static String session(Session session) {
    List<String> parts =
        new ArrayList<>(List.of("session '" + session.name() + "'", "blade " + session.blade()));
    addText(parts, "filament ", session.equipment().filamentLot().orElse(""));
    addText(parts, "rig ", session.equipment().rig().orElse(""));
    addText(parts, "calibration ", session.equipment().calibration().orElse(""));
    add(parts, session.roomCelsius(), " °C");
    addText(parts, "by ", session.operator().orElse(""));
    parts.add("opened " + WallTime.of(session.opened()));
    parts.add(session.closed().map(at -> "closed " + WallTime.of(at)).orElse("still open"));
    return line(parts);
  }

  /** What an entry of a stage says, without its id. */
  public static String entry(StageEntry entry) {
    if (entry instanceof SharpeningStep step) {
      return step(step);
    }
    if (entry instanceof Inspection inspection) {
      return inspection(inspection);
    }
    return entry instanceof CutPlacement placement ? placement(placement) : "withdrawn";
  }

  private static String step(SharpeningStep step) {
    List<String> parts = new ArrayList<>(List.of(step.abrasive()));
    step.grain().grit().ifPresent(grit -> parts.add("grit " + grit));
    add(parts, step.grain().micron(), " µm");
    addText(parts, "", step.direction().map(EdgeDirection::plain).orElse(""));
    step.strokesPerSide().ifPresent(strokes -> parts.add(strokes + " strokes a side"));
    addText(parts, "", step.pressure().map(Pressure::plain).orElse(""));
    addText(parts, "", step.note());
    return line(parts);
  }

  private static String inspection(Inspection i) {
    List<String> parts = new ArrayList<>();
    parts.add(i.look().method().plain() + (i.look().magnification().isPresent() ? times(i) : ""));
    parts.add(i.side().word());
    addText(parts, "", i.place().map(Place::plain).orElse(""));
    return line(parts)
        + ": "
        + i.finding().plain()
        + (i.note().isEmpty() ? "" : " (" + line(List.of(i.note())) + ")")
        + (i.photo().isPresent() ? ", with a photo" : "");
  }

  private static String times(Inspection inspection) {
    return " " + number(inspection.look().magnification()) + "x";
  }

  private static String placement(CutPlacement placement) {
    return "cut "
        + placement.cut()
        + (placement.placeMm().isPresent()
            ? " at " + number(placement.placeMm()) + " mm"
            : ", place not noted");
  }

  /** Id of an entry, and what it corrects. */
  static String head(Entry<?> entry) {
    return "["
        + entry.id()
        + "] "
        + (entry.corrects().isPresent()
            ? "corrects [%s], %s: "
                .formatted(entry.corrects().getAsLong(), line(List.of(entry.why())))
            : "");
  }

  /** What was mended, with when and why. */
  static String amendment(Entry<Amendment> entry) {
    return "[%s] %s %s"
        .formatted(
            entry.id(),
            WallTime.of(entry.recorded()),
            line(List.of(entry.content().plain(), entry.why())));
  }

  static String next(NextPlace next) {
    return next instanceof NextPlace.At at
        ? "next cut at " + at.place().plain() + " from the heel"
        : "every spot is used: say with snick place MM which one is cut again";
  }

  private static void add(List<String> parts, OptionalDouble value, String unit) {
    value.ifPresent(v -> parts.add(number(v) + unit));
  }

  private static void addText(List<String> parts, String before, String text) {
    Optional.of(text).filter(t -> !t.isBlank()).ifPresent(t -> parts.add(before + t));
  }

  private static String line(List<String> parts) {
    return PlainText.inert(String.join(", ", parts)).replace('\n', ' ');
  }
}
