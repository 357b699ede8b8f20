package snick.cli;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import snick.cut.Cut;
import snick.cut.Flag;
import snick.cut.Peak;
import snick.force.Calibration;

/**
 * The scripts' contract: one event as a JSON object. Names and meanings are kept stable; new names
 * may be added.
 */
final class EventJson {
  private final Calibration calibration;

  EventJson(Calibration calibration) {
    this.calibration = calibration;
  }

  /** The event's values by name; forces in gf, times in s since the first sample. */
  Map<String, Object> of(Cut cut) {
    Map<String, Object> event = new LinkedHashMap<>();
    event.put("cut", cut.number());
    event.put("outcome", cut.outcome().word());
    event.put("onset_s", cut.onsetNanos() / 1e9);
    event.put("break_s", cut.breakNanos().isPresent() ? cut.breakNanos().getAsLong() / 1e9 : null);
    event.put(
        "observed_max_gf", cut.peak().map(p -> gramForce(p.observedMaxCounts())).orElse(null));
    event.put("force_gf", severed(cut) ? gramForce(cut.peak().get().estimateCounts()) : null);
    event.put("u_gf", severed(cut) ? uncertaintyGramForce(cut.peak().get()) : null);
    event.put("loading_rate_gf_s", gramForce(cut.shape().loadingRateCountsPerSecond()));
    event.put("flags", flags(cut));
    return event;
  }

  private static boolean severed(Cut cut) {
    return cut.breakNanos().isPresent() && cut.peak().isPresent();
  }

  private double gramForce(double deflectionCounts) {
    return Numbers.millionths(calibration.force(deflectionCounts, 0).value().gramForce());
  }

  /** Of the estimate alone: the calibration's own uncertainty is left out. */
  private double uncertaintyGramForce(Peak peak) {
    double above = peak.estimateCounts() + peak.standardUncertaintyCounts();
    return Numbers.millionths(
        calibration.force(above, 0).value().gramForce()
            - calibration.force(peak.estimateCounts(), 0).value().gramForce());
  }

  private static List<String> flags(Cut cut) {
    return cut.flags().stream().map(Flag::word).sorted().toList();
  }
}
