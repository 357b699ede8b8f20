package snick.force.check;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.apache.commons.statistics.descriptive.Median;
import org.apache.commons.statistics.descriptive.StandardDeviation;
import snick.cut.response.Ring;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleBuffer;
import snick.sample.SampleSink;

/**
 * Resonance and damping from flicks: the fixture is left alone for two seconds, then flicked with a
 * finger a few times, with a pause after each. A tap test, as for any structure; what swings is
 * fitted as after a cut thread. One thread.
 */
public final class FlickCheck implements SampleSink {
  /** Most samples that are kept; later ones are left out. */
  private static final int MOST_SAMPLES = 200_000;

  private static final double REST_SECONDS = 2;

  /** Far beyond noise and footsteps. */
  private static final double CLEAR_NOISES = 30;

  /** Nothing beyond that for so long before a flick, s. */
  private static final double QUIET_SECONDS = 0.4;

  /** The finger is off, and a filter of four readings has forgotten it. */
  private static final double FINGER_SECONDS = 0.03;

  private static final int FILTER_READINGS = 4;

  private static final double LOOKED_AT_SECONDS = 2;
  private static final int MOST_LOOKED_AT = 2000;
  private static final int FEWEST_FLICKS = 3;

  /** Frequencies that lie farther from the middle one are not of the same swing. */
  private static final double SAME_SHARE = 0.1;

  private static final Median MEDIAN = Median.withDefaults().withCopy(true);

  private final SampleBuffer kept = new SampleBuffer(MOST_SAMPLES);

  @Override
  public void sample(long deviceNanos, int reading) {
    kept.add(deviceNanos, reading);
  }

  /** Without effect: a flick that hard tells as much beside the end of the range. */
  @Override
  public void overrange(long deviceNanos, Rail rail) {}

  /** Without effect: flicks around it do not agree with the others. */
  @Override
  public void gap(Gap gap) {}

  @Override
  public void end() {}

  /** What at least three flicks agree on; its strength after a fall is not known. */
  public Optional<Ring> ring() {
    int resting = resting();
    if (resting < 2 * FILTER_READINGS || resting == kept.size()) {
      return Optional.empty();
    }
    double samplesPerSecond =
        1e9 * (kept.size() - 1) / (kept.nanos(kept.size() - 1) - kept.nanos(0));
    List<StepResponse.Ring> rings = rings(resting, samplesPerSecond);
    if (rings.size() < FEWEST_FLICKS) {
      return Optional.empty();
    }
    double middle = MEDIAN.evaluate(rings.stream().mapToDouble(r -> r.hertz().value()).toArray());
    rings.removeIf(r -> Math.abs(r.hertz().value() / middle - 1) > SAME_SHARE);
    return rings.size() < FEWEST_FLICKS ? Optional.empty() : Optional.of(together(rings));
  }

  /** Samples before the first flick may come. */
  private int resting() {
    return kept.size() == 0 ? 0 : kept.firstFrom(kept.nanos(0) + Math.round(REST_SECONDS * 1e9));
  }

  private double[] counts(int from, int to) {
    return Arrays.stream(kept.counts(from, to)).asDoubleStream().toArray();
  }

  private List<StepResponse.Ring> rings(int resting, double samplesPerSecond) {
    double[] rest = counts(0, resting);
    double zero = MEDIAN.evaluate(rest);
    double noise = Math.max(1, StandardDeviation.of(rest).getAsDouble());
    List<StepResponse.Ring> rings = new ArrayList<>();
    List<Integer> onsets = onsets(resting, zero, CLEAR_NOISES * noise, samplesPerSecond);
    int skipped = (int) Math.ceil(FINGER_SECONDS * samplesPerSecond) + FILTER_READINGS;
    for (int i = 0; i < onsets.size(); i++) {
      int from = onsets.get(i) + skipped;
      int next = i + 1 < onsets.size() ? onsets.get(i + 1) : kept.size();
      int to = Math.min(next, from + (int) (LOOKED_AT_SECONDS * samplesPerSecond));
      if (to > from) {
        double[] still = Arrays.stream(rest).map(c -> c - zero).toArray();
        RingFit.of(aboutTheirEnd(from, to), still, noise, samplesPerSecond, MOST_LOOKED_AT)
            .ifPresent(rings::add);
      }
    }
    return rings;
  }

  /** Readings less the level at which they come to rest. */
  private double[] aboutTheirEnd(int from, int to) {
    double[] part = counts(from, to);
    double level = Arrays.stream(part, part.length / 2, part.length).average().orElseThrow();
    return Arrays.stream(part).map(c -> c - level).toArray();
  }

  private List<Integer> onsets(int from, double zero, double clear, double samplesPerSecond) {
    List<Integer> onsets = new ArrayList<>();
    int last = Integer.MIN_VALUE / 2;
    for (int i = from; i < kept.size(); i++) {
      if (Math.abs(kept.counts(i) - zero) > clear) {
        if (i - last > QUIET_SECONDS * samplesPerSecond) {
          onsets.add(i);
        }
        last = i;
      }
    }
    return onsets;
  }

  private static Ring together(List<StepResponse.Ring> rings) {
    double[] hertz = rings.stream().mapToDouble(r -> r.hertz().value()).toArray();
    double[] logs = rings.stream().mapToDouble(r -> Math.log(r.dampingRatio().value())).toArray();
    double root = Math.sqrt(rings.size());
    return new Ring(
        MEDIAN.evaluate(hertz),
        Math.max(1e-6, StandardDeviation.of(hertz).getAsDouble() / root),
        Math.exp(MEDIAN.evaluate(logs)),
        Math.max(1e-6, StandardDeviation.of(logs).getAsDouble() / root),
        0,
        0);
  }
}
