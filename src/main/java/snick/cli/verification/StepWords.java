package snick.cli.verification;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import snick.cli.terminal.Numbers;
import snick.force.check.Estimated;
import snick.force.check.StepResponse;
import snick.virtualrig.signal.StepTruth;

/**
 * A step response for people and programs; on the virtual rig beside its truth.
 *
 * @param response as measured
 * @param cut the instant of the cut, where it is known
 */
record StepWords(StepResponse response, Optional<KnownCut> cut) {
  private static final double NANOS_PER_MILLISECOND = 1e6;
  private static final int TRUTH_DECIMALS = 2;

  /**
   * The virtual rig knows when its thread was cut.
   *
   * @param cutNanos device time of the cut, ns
   * @param truth what the rig's own figures make of it
   */
  record KnownCut(long cutNanos, StepTruth truth) {}

  /** Names and texts, in order. */
  Map<String, String> lines() {
    Map<String, String> lines = new LinkedHashMap<>();
    StepResponse.Movement movement = response.movementNanos();
    lines.put(
        "delay",
        milliseconds(movement.leastNanos(), 1)
            + " to "
            + milliseconds(movement.mostNanos(), 1)
            + " ms from the first movement to the instant of equal areas; samples do not tell the"
            + " instant of the cut");
    cut.ifPresent(
        known ->
            lines.put(
                "from the cut",
                milliseconds(delay(known))
                    + " to the instant of equal areas; truth of the virtual rig "
                    + milliseconds(known.truth().delayNanos(), TRUTH_DECIMALS)
                    + " ms"));
    lines.put(
        "fall",
        milliseconds(response.fallNanos())
            + " from 90 % to 10 %"
            + truth(t -> milliseconds(t.fallNanos(), TRUTH_DECIMALS) + " ms"));
    lines.put(
        "overshoot",
        response.swing().overshoot() > 0 ? percent(response.swing().overshoot()) : "none seen");
    lines.put("ring", ring());
    lines.put("seen are", limits());
    return lines;
  }

  private Estimated delay(KnownCut known) {
    return response.delayNanos(known.cutNanos());
  }

  private String ring() {
    return response.swing().ring().map(StepWords::words).orElse("none seen")
        + truth(
            t ->
                String.format(
                    Locale.ROOT, "%.1f Hz, damping ratio %.3f", t.ringHertz(), t.dampingRatio()));
  }

  private static String words(StepResponse.Ring ring) {
    return Numbers.plusMinus(ring.hertz().value(), ring.hertz().expanded())
        + " Hz as sampled, damping ratio "
        + Numbers.plusMinus(ring.dampingRatio().value(), ring.dampingRatio().expanded());
  }

  private String limits() {
    return String.format(
        Locale.ROOT,
        "swings above %s, and rings below %.0f Hz (half of %.0f samples/s); a faster ring is"
            + " hidden by the filter or shows at a false frequency",
        percent(response.swing().smallest()),
        response.highestHertz(),
        response.samplesPerSecond());
  }

  private String truth(Function<StepTruth, String> words) {
    return cut.map(known -> "; truth of the virtual rig " + words.apply(known.truth())).orElse("");
  }

  private static String percent(double share) {
    return Numbers.fixed(100 * share, 2) + " % of the step";
  }

  private static String milliseconds(double nanos, int decimals) {
    return Numbers.fixed(nanos / NANOS_PER_MILLISECOND, decimals);
  }

  private static String milliseconds(Estimated nanos) {
    return Numbers.plusMinus(
            nanos.value() / NANOS_PER_MILLISECOND, nanos.expanded() / NANOS_PER_MILLISECOND)
        + " ms";
  }

  /** Adds every figure to {@code object}. */
  void addTo(Map<String, Object> object) {
    object.put("step_counts", response.stepCounts());
    object.put("noise_counts", response.noiseCounts());
    object.put("samples_per_second", response.samplesPerSecond());
    object.put("equal_area_s", response.equalAreaNanos().value() / 1e9);
    object.put("u_equal_area_ms", scaled(response.equalAreaNanos().standardUncertainty()));
    object.put("movement_to_equal_area_least_ms", scaled(response.movementNanos().leastNanos()));
    object.put("movement_to_equal_area_most_ms", scaled(response.movementNanos().mostNanos()));
    object.put("fall_ms", scaled(response.fallNanos().value()));
    object.put("u_fall_ms", scaled(response.fallNanos().standardUncertainty()));
    object.put("overshoot", response.swing().overshoot());
    object.put("smallest_swing_seen", response.swing().smallest());
    object.put("highest_ring_seen_hz", response.highestHertz());
    response
        .swing()
        .ring()
        .ifPresent(
            ring -> {
              object.put("ring_hz", ring.hertz().value());
              object.put("u_ring_hz", ring.hertz().standardUncertainty());
              object.put("damping_ratio", ring.dampingRatio().value());
              object.put("u_damping_ratio", ring.dampingRatio().standardUncertainty());
            });
    cut.ifPresent(
        known -> {
          object.put("cut_to_equal_area_ms", scaled(delay(known).value()));
          object.put("u_cut_to_equal_area_ms", scaled(delay(known).standardUncertainty()));
          object.put("true_cut_to_equal_area_ms", scaled(known.truth().delayNanos()));
          object.put("true_fall_ms", scaled(known.truth().fallNanos()));
          object.put("true_ring_hz", known.truth().ringHertz());
          object.put("true_damping_ratio", known.truth().dampingRatio());
        });
  }

  private static double scaled(double nanos) {
    return nanos / NANOS_PER_MILLISECOND;
  }
}
