package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import snick.cut.response.Learner;
import snick.cut.response.Ring;
import snick.cut.response.SeenFall;

/**
 * Resonance and damping of rigs drawn at random, learned from 20 falls each. Where a fall lies is
 * taken from the truth, its force up to 1 % wrong: this is about learning, not about detecting.
 * Seeds from 10,000 on; what was tuned was tuned on 1 to 60.
 */
class ResponseOfStrangersTest {
  private static final int RIGS = 24;
  private static final long FIRST_SEED = 10_000;

  /** Part of the sampling rate up to which a resonance must be shown. */
  private static final double SHOWN = 0.4;

  private static final double WITHIN_HERTZ = 0.05;
  private static final double WITHIN_FACTOR = 1.5;

  private static List<SeenFall> falls(StrangersRig rig) {
    List<SeenFall> falls = new ArrayList<>();
    for (int k = 0; k < rig.truths.size(); k++) {
      double off = 1 + 0.01 * Math.sin(7.3 * k);
      fall(rig, rig.truths.get(k), off).ifPresent(falls::add);
    }
    return falls;
  }

  private static Optional<SeenFall> fall(StrangersRig rig, StrangersRig.Truth truth, double off) {
    int at = 0;
    while (rig.nanos[at] / 1e9 < truth.breakS()) {
      at++;
    }
    int reach = (int) (0.16 * rig.rateHz) + 8;
    int from = at - reach;
    int n = Math.min(rig.counts.length, at + reach) - from;
    double[] seconds = new double[n];
    double[] counts = new double[n];
    double zero = 40_000 + rig.countsPerGf * rig.driftGfPerS * (truth.breakS() - 1);
    for (int i = 0; i < n; i++) {
      seconds[i] = rig.nanos[from + i] / 1e9 - truth.breakS();
      counts[i] = rig.counts[from + i] - zero;
    }
    return SeenFall.of(
        seconds,
        counts,
        rig.countsPerGf * truth.forceGf() * off,
        rig.countsPerGf * truth.rateGfPerS(),
        rig.countsPerGf * rig.noiseGf);
  }

  private static boolean right(Ring ring, StrangersRig rig) {
    double damped = rig.resonanceHz * Math.sqrt(1 - rig.damping * rig.damping);
    return Math.abs(ring.hertz() / damped - 1) < WITHIN_HERTZ
        && Math.abs(Math.log(ring.dampingRatio() / rig.damping)) < Math.log(WITHIN_FACTOR);
  }

  @Test
  void resonanceAndDampingAreRightWhereTheRateShowsThem() {
    int showable = 0;
    List<String> missed = new ArrayList<>();
    List<String> wrong = new ArrayList<>();
    for (int i = 0; i < RIGS; i++) {
      StrangersRig rig = new StrangersRig(FIRST_SEED + i).record(20, 1.5, 2.5);
      Optional<Ring> ring = Learner.of(falls(rig)).ring();
      boolean shows = rig.resonanceHz < SHOWN * rig.rateHz;
      showable += shows ? 1 : 0;
      if (shows && ring.isEmpty()) {
        missed.add(rig.toString());
      } else if (ring.isPresent() && !right(ring.get(), rig)) {
        wrong.add(ring.get() + " of " + rig);
      }
    }
    assertThat(showable).isGreaterThan(RIGS / 3);
    missed.addAll(wrong);
    assertThat(missed).hasSizeLessThanOrEqualTo(showable / 10);
  }

  /** Samples of such a rig lie between its swings; a filter of two periods and more shows none. */
  @Test
  void fallsAreUnlikeOneAnotherWhereTheFixtureSwingsBetweenTheSamples() {
    List<Double> unfiltered = new ArrayList<>();
    List<Double> filtered = new ArrayList<>();
    for (long seed = FIRST_SEED; unfiltered.size() < 5 || filtered.size() < 10; seed++) {
      StrangersRig rig = new StrangersRig(seed);
      boolean slow = rig.rateHz < 150 && rig.damping < 0.04 && rig.resonanceHz > 0.5 * rig.rateHz;
      if (slow && rig.filter == StrangersRig.Filter.NONE) {
        unfiltered.add(unlikeness(rig));
      } else if (rig.filter == StrangersRig.Filter.BOX && rig.filterPeriods >= 2) {
        filtered.add(unlikeness(rig));
      }
    }
    assertThat(unfiltered).filteredOn(share -> share > 0.06).hasSizeGreaterThanOrEqualTo(4);
    assertThat(filtered).allMatch(share -> share < 0.06);
  }

  private static double unlikeness(StrangersRig rig) {
    return Learner.of(falls(rig.record(20, 1.5, 2.5))).laterUnlikeness();
  }
}
