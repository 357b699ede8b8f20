package snick.cli.cuts;

import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import snick.cli.terminal.Numbers;
import snick.cut.Cut;
import snick.cut.Flag;
import snick.cut.Peak;
import snick.force.budget.DerivedForce;
import snick.quantity.MeasuredForce;

/** One event in one line, for people. */
public final class EventLine {
  private EventLine() {}

  /** The line; {@code name} stands first. */
  public static String of(Cut cut, DerivedForce force, String name) {
    return String.format(
        Locale.ROOT,
        "%-8s %9.3f s  %-15s  %s%s",
        name,
        cut.breakNanos().orElse(cut.onsetNanos()) / 1e9,
        cut.outcome().plain(),
        cut.peak().map(p -> strength(cut, p, force)).orElse(""),
        flags(cut));
  }

  private static String strength(Cut cut, Peak peak, DerivedForce force) {
    if (cut.breakNanos().isEmpty()) {
      return "up to "
          + force
              .measured()
              .map(f -> Numbers.gramForce(f.value()) + " gf")
              .orElseGet(() -> Numbers.fixed(peak.observedMaxCounts(), 0) + " counts");
    }
    return force.measured().map(f -> both(f) + outside(force)).orElseGet(() -> counts(peak));
  }

  private static String both(MeasuredForce force) {
    return String.format(
        Locale.ROOT, "%16s  %18s", Numbers.gramForce(force), Numbers.newtons(force));
  }

  private static String counts(Peak peak) {
    return Numbers.plusMinus(peak.estimateCounts(), 2 * peak.standardUncertaintyCounts())
        + " counts, uncalibrated";
  }

  private static String outside(DerivedForce force) {
    return force instanceof DerivedForce.Outside outside
        ? "  outside the calibrated range (%s to %s gf)"
            .formatted(
                Numbers.gramForce(outside.range().from()), Numbers.gramForce(outside.range().to()))
        : "";
  }

  private static String flags(Cut cut) {
    return cut.flags().isEmpty() ? "" : "  (" + words(cut.flags()) + ")";
  }

  /** Flags in plain words. */
  static String words(Set<Flag> flags) {
    return flags.stream().map(Flag::plain).sorted().collect(Collectors.joining(", "));
  }

  /** Which calibration a force comes from. */
  static String source(DerivedForce force) {
    if (force instanceof DerivedForce.Inside inside) {
      return "calibration " + inside.calibrationId();
    }
    return force instanceof DerivedForce.Outside outside
        ? "calibration " + outside.calibrationId() + ", outside its range"
        : "uncalibrated";
  }
}
