package snick.cli;

import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import snick.cut.Cut;
import snick.cut.Flag;
import snick.cut.Outcome;
import snick.cut.Peak;
import snick.force.Calibration;
import snick.force.DerivedForce;

/** One event in one line, for people. */
final class EventLine {
  private EventLine() {}

  /**
   * The line.
   *
   * @param calibration turns counts into force; empty: counts are shown
   * @param storedId the cut's id in the store, if it is stored
   */
  static String of(Cut cut, Optional<Calibration> calibration, Optional<Long> storedId) {
    Optional<DerivedForce> force =
        calibration.flatMap(
            c ->
                cut.peak()
                    .map(p -> c.derive(p.estimateCounts(), p.standardUncertaintyCounts())));
    return of(cut, force, storedId.map(id -> "#" + id).orElse("cut " + cut.number()));
  }

  /** The line, with a force that was derived already. */
  static String of(Cut cut, Optional<DerivedForce> force, String name) {
    return String.format(
        Locale.ROOT,
        "%-8s %9.3f s  %-16s %s%s",
        name,
        cut.breakNanos().orElse(cut.onsetNanos()) / 1e9,
        words(cut.outcome()),
        cut.peak().map(p -> strength(cut, p, force)).orElse(""),
        flags(cut));
  }

  /** The outcome in plain words. */
  static String words(Outcome outcome) {
    return outcome.word().replace('_', ' ');
  }

  private static String strength(Cut cut, Peak peak, Optional<DerivedForce> force) {
    if (cut.breakNanos().isEmpty()) {
      return "up to " + force.map(EventLine::value).orElse(counts(peak.observedMaxCounts()));
    }
    return force
        .map(f -> Numbers.gramForce(f.force()) + "  " + Numbers.newtons(f.force()) + outside(f))
        .orElseGet(
            () ->
                Numbers.plusMinus(peak.estimateCounts(), 2 * peak.standardUncertaintyCounts())
                    + " counts, uncalibrated");
  }

  private static String value(DerivedForce force) {
    return Numbers.gramForce(force.force().value()) + " gf";
  }

  private static String counts(double counts) {
    return Numbers.fixed(counts, 0) + " counts";
  }

  private static String outside(DerivedForce force) {
    return force instanceof DerivedForce.Outside outside
        ? "  outside the calibrated range ("
            + Numbers.gramForce(outside.range().from())
            + " to "
            + Numbers.gramForce(outside.range().to())
            + " gf)"
        : "";
  }

  private static String flags(Cut cut) {
    return cut.flags().isEmpty()
        ? ""
        : cut.flags().stream()
            .map(Flag::word)
            .map(word -> word.replace('_', ' '))
            .sorted()
            .collect(Collectors.joining(", ", "  (", ")"));
  }
}
