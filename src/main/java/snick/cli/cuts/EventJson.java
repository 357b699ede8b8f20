package snick.cli.cuts;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.cli.terminal.Numbers;
import snick.cut.Cut;
import snick.cut.CutFigures;
import snick.cut.Peak;
import snick.force.budget.Calibration;
import snick.json.AttributeJson;
import snick.quantity.Force;

/**
 * The scripts' contract: an event as a JSON object (RFC 8259), null for what is not there. Names
 * and meanings are kept stable; new names may be added.
 */
final class EventJson {
  private EventJson() {}

  /**
   * What was found in {@code cut}, and its forces by {@code line} over {@link
   * CalibrationChoice#RANGE}; the uncertainty is that of the estimate alone.
   */
  static Map<String, Object> of(Cut cut, Calibration.Line line) {
    Map<String, Object> event = new LinkedHashMap<>();
    event.put("cut", cut.number());
    AttributeJson.properties(CutFigures.ATTRIBUTES).keySet().forEach(n -> event.put(n, null));
    event.putAll(AttributeJson.of(CutFigures.ATTRIBUTES, cut.figures()));
    Optional<Peak> broken = cut.peak().filter(peak -> cut.breakNanos().isPresent());
    OptionalDouble force = gramForce(line, broken.map(Peak::estimateCounts));
    OptionalDouble above =
        gramForce(line, broken.map(p -> p.estimateCounts() + p.standardUncertaintyCounts()));
    put(event, "observed_max_gf", gramForce(line, cut.peak().map(Peak::observedMaxCounts)));
    put(event, "force_gf", force);
    put(event, "u_gf", less(above, force));
    put(
        event,
        "loading_rate_gf_s",
        gramForce(line, Optional.of(cut.shape().loadingRateCountsPerSecond())));
    return event;
  }

  private static OptionalDouble less(OptionalDouble value, OptionalDouble other) {
    return value.isPresent() && other.isPresent()
        ? OptionalDouble.of(value.getAsDouble() - other.getAsDouble())
        : OptionalDouble.empty();
  }

  private static OptionalDouble gramForce(Calibration.Line line, Optional<Double> counts) {
    return counts.stream()
        .mapToDouble(c -> line.curve().newtons(c, CalibrationChoice.RANGE))
        .map(newtons -> newtons / Force.NEWTONS_PER_GRAM_FORCE)
        .findFirst();
  }

  private static void put(Map<String, Object> event, String name, OptionalDouble value) {
    boolean finite = value.isPresent() && Double.isFinite(value.getAsDouble());
    event.put(name, finite ? Numbers.millionths(value.getAsDouble()) : null);
  }
}
