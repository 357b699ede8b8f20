package snick.cut;

import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;

/**
 * Errors of many cuts made at one sampling rate, filter, loading rate, force and tremor.
 *
 * @param cuts cuts made
 * @param found severed cuts found
 * @param meanPercent mean error of the estimate, %
 * @param rmsPercent rms error of the estimate, %
 * @param observedRmsPercent rms error of the observed maximum, %
 * @param covered share of cuts with |error| ≤ 2u
 * @param uPercent rms of the stated standard uncertainty, %
 * @param tooFast share of cuts flagged as too fast for the rate
 */
record ErrorCell(
    int cuts,
    int found,
    double meanPercent,
    double rmsPercent,
    double observedRmsPercent,
    double covered,
    double uPercent,
    double tooFast) {

  /** What the operator's hand does. */
  enum Tremor {
    /** Nothing. */
    NONE,
    /** One sinusoid of 1 gf amplitude. */
    SINUSOID,
    /** Narrow-band random of 1 gf rms. */
    RANDOM;

    DoubleUnaryOperator of(Random random) {
      return switch (this) {
        case NONE -> Press.steady();
        case SINUSOID -> Press.sinusoid(1, random);
        case RANDOM -> Press.narrowBand(1, random);
      };
    }
  }

  /** When the filament parts. */
  enum Parting {
    /** At the first instant at which the force reaches the strength. */
    AT_STRENGTH,
    /** At the instant at which an even ramp would reach it, whatever the force then. */
    AT_INSTANT
  }

  static ErrorCell measure(
      double rateHertz,
      RigModel.Filter filter,
      double loading,
      double strength,
      Tremor tremor,
      int cuts,
      long seed) {
    return measure(rateHertz, filter, loading, strength, tremor, Parting.AT_STRENGTH, cuts, seed);
  }

  static ErrorCell measure(
      double rateHertz,
      RigModel.Filter filter,
      double loading,
      double strength,
      Tremor tremor,
      Parting parting,
      int cuts,
      long seed) {
    double sum = 0;
    double square = 0;
    double observed = 0;
    double stated = 0;
    int covered = 0;
    int found = 0;
    int fast = 0;
    for (int i = 0; i < cuts; i++) {
      RigModel rig = new RigModel(rateHertz, filter, 0.15, seed + 7919L * i);
      double rest = Math.max(1.2, 30 / rateHertz);
      double onset = rest + rig.random.nextDouble() / rateHertz;
      DoubleUnaryOperator hand = tremor.of(rig.random);
      Press press =
          parting == Parting.AT_STRENGTH
              ? Press.ramp(onset, loading, strength, hand)
              : Press.timed(onset, loading, strength / loading, hand);
      double seconds = press.breakTime + Math.max(0.4, 18 / rateHertz);
      List<Cut> out = Recorder.of(rig, rig.readings(press, seconds));
      if (out.size() != 1 || out.get(0).outcome() != Outcome.SEVERED) {
        continue;
      }
      found++;
      Peak peak = out.get(0).peak().orElseThrow();
      double error = peak.estimateCounts() / RigModel.COUNTS_PER_GF - press.strength;
      double off = peak.observedMaxCounts() / RigModel.COUNTS_PER_GF - press.strength;
      double u = peak.standardUncertaintyCounts() / RigModel.COUNTS_PER_GF;
      sum += error;
      square += error * error;
      observed += off * off;
      stated += u * u;
      covered += Math.abs(error) <= 2 * u ? 1 : 0;
      fast += out.get(0).flags().contains(Flag.TOO_FAST_FOR_RATE) ? 1 : 0;
    }
    double percent = 100 / strength;
    return new ErrorCell(
        cuts,
        found,
        percent * sum / found,
        percent * Math.sqrt(square / found),
        percent * Math.sqrt(observed / found),
        (double) covered / found,
        percent * Math.sqrt(stated / found),
        (double) fast / found);
  }
}
