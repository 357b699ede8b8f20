package snick.force.check;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.force.budget.Calibration;
import snick.quantity.Force;
import snick.quantity.SampleRate;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;

/**
 * What is wrong with this rig? Takes about a minute of samples at rest, without load, and says. The
 * limits are our own, from common practice without source. One thread.
 */
public final class RigCheck implements SampleSink {
  /** Most samples that are kept; later ones only count. */
  public static final int MOST_SAMPLES = 1_000_000;

  private static final int FEWEST_SAMPLES = 20;
  private static final double[] MAINS_HERTZ = {50, 60, 100, 120};
  private static final double MAINS_HALF_BAND_HERTZ = 0.4;
  private static final double LOWEST_ALIAS_HERTZ = 0.6;
  private static final double SURE = 14;
  private static final double NO_OSCILLATOR_PPM = 100_000;

  private long[] nanos = new long[4096];
  private int[] counts = new int[4096];
  private int size;
  private long overrange;
  private long lost;
  private long breaks;
  private long gapNanos;

  /**
   * What is known beside the samples.
   *
   * @param nominalRate rate that the device names
   * @param calibration to say counts in gf
   * @param clockErrorPpm by how much the device's clock is slow against the host's, parts per
   *     million
   * @param goodFrames frames or lines accepted
   * @param badFrames frames or lines thrown away
   */
  public record Circumstances(
      Optional<SampleRate> nominalRate,
      Optional<Calibration> calibration,
      OptionalDouble clockErrorPpm,
      long goodFrames,
      long badFrames) {}

  @Override
  public void sample(long deviceNanos, int reading) {
    if (size == MOST_SAMPLES) {
      return;
    }
    if (size == nanos.length) {
      int larger = Math.min(MOST_SAMPLES, 2 * size);
      nanos = Arrays.copyOf(nanos, larger);
      counts = Arrays.copyOf(counts, larger);
    }
    nanos[size] = deviceNanos;
    counts[size] = reading;
    size++;
  }

  @Override
  public void overrange(long deviceNanos, Rail rail) {
    overrange++;
  }

  @Override
  public void gap(Gap gap) {
    lost += gap.lostSamples();
    breaks++;
    if (size > 0 && size < MOST_SAMPLES) {
      gapNanos += gap.toNanos() - gap.fromNanos();
    }
  }

  /** Without effect: a check ends when the person has seen enough. */
  @Override
  public void end() {}

  /** Samples taken so far. */
  public int samples() {
    return size;
  }

  /**
   * The findings, in the order of {@link Finding.Check}.
   *
   * @throws IllegalStateException with fewer than 20 samples
   */
  public List<Finding> findings(Circumstances known) {
    if (size < FEWEST_SAMPLES || nanos[size - 1] <= nanos[0]) {
      throw new IllegalStateException(
          size
              + " samples and "
              + overrange
              + " overrange: too few to judge a rig; let it run for a minute"
              + " and check port and sketch");
    }
    RestSeries series = new RestSeries(Arrays.copyOf(nanos, size), Arrays.copyOf(counts, size));
    double hertz = rateHertz();
    List<Finding> findings = new ArrayList<>();
    findings.add(rate(hertz, known.nominalRate()));
    findings.add(noise(series, known.calibration()));
    findings.add(drift(series, known.calibration()));
    findings.add(rails());
    findings.add(stuck(series, hertz));
    findings.add(clockWire(series));
    findings.add(spikes(series));
    findings.add(hum(series, hertz, known.calibration()));
    known.clockErrorPpm().ifPresent(ppm -> findings.add(clock(ppm)));
    findings.add(loss(known));
    return List.copyOf(findings);
  }

  private double rateHertz() {
    long spent = nanos[size - 1] - nanos[0] - gapNanos;
    long intervals = size - 1L + overrange;
    return spent > 0 ? intervals * 1e9 / spent : intervals * 1e9 / (nanos[size - 1] - nanos[0]);
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }

  private static String inGramForce(double amount, Optional<Calibration> calibration) {
    return calibration
        .map(
            c ->
                text(
                    " (%.3g gf)",
                    amount / c.curve().slopeCountsPerNewton(0) / Force.NEWTONS_PER_GRAM_FORCE))
        .orElse("");
  }

  private static OptionalDouble gramForce(double amount, Optional<Calibration> calibration) {
    return calibration
        .map(
            c ->
                OptionalDouble.of(
                    Math.abs(amount)
                        / c.curve().slopeCountsPerNewton(0)
                        / Force.NEWTONS_PER_GRAM_FORCE))
        .orElse(OptionalDouble.empty());
  }

  private static Finding.Grade grade(double value, double warn, double fail) {
    if (!(value <= fail)) {
      return Finding.Grade.FAIL;
    }
    return value <= warn ? Finding.Grade.PASS : Finding.Grade.WARN;
  }

  private static Finding rate(double hertz, Optional<SampleRate> nominal) {
    double away = nominal.map(n -> Math.abs(hertz / n.hertz() - 1)).orElse(0.0);
    Finding.Grade byNominal = grade(away, 0.05, 0.2);
    Finding.Grade grade =
        hertz < 20 && byNominal == Finding.Grade.PASS ? Finding.Grade.WARN : byNominal;
    return new Finding(
        Finding.Check.RATE,
        grade,
        text("%.3f samples/s", hertz),
        nominal
            .map(n -> text("%.3f samples/s ± 5 %%, at least 20", n.hertz()))
            .orElse("at least 20 samples/s"),
        hertz < 20
            ? "too slow for a break: the largest sample reads far too low"
            : "samples per second of device time",
        grade == Finding.Grade.PASS
            ? ""
            : "check the converter's rate pin and that the sketch reads every conversion");
  }

  private static Finding noise(RestSeries series, Optional<Calibration> calibration) {
    double sd = series.noiseCounts();
    OptionalDouble gf = gramForce(sd, calibration);
    Finding.Grade grade = gf.isPresent() ? grade(gf.getAsDouble(), 0.5, 2) : Finding.Grade.UNKNOWN;
    return new Finding(
        Finding.Check.NOISE,
        grade,
        text("%.3g counts", sd) + inGramForce(sd, calibration),
        calibration.isPresent()
            ? "at most 0.5 gf"
            : "at most 0.5 gf, once a calibration says how many counts that is",
        "standard deviation of one sample at rest",
        switch (grade) {
          case PASS -> "";
          case UNKNOWN -> "calibrate, then look again: only then is it known what a count weighs";
          case WARN, FAIL ->
              "shorten and twist the cell's wires, check supply and ground, keep motors away";
        });
  }

  private static Finding drift(RestSeries series, Optional<Calibration> calibration) {
    double drift = series.driftCountsPerMinute();
    OptionalDouble gf = gramForce(drift, calibration);
    double inNoise = Math.abs(drift) / Math.max(1, series.noiseCounts());
    Finding.Grade grade = gf.isPresent() ? grade(gf.getAsDouble(), 1, 10) : grade(inNoise, 10, 100);
    return new Finding(
        Finding.Check.DRIFT,
        grade,
        text("%.4g counts/min", drift) + inGramForce(drift, calibration),
        calibration.isPresent() ? "at most 1 gf/min" : "at most ten times the noise a minute",
        "slow change of the reading at rest",
        grade == Finding.Grade.PASS
            ? ""
            : "let it warm up for half an hour, keep draughts and sun away, take all load off");
  }

  private Finding rails() {
    return new Finding(
        Finding.Check.OVERRANGE,
        overrange == 0 ? Finding.Grade.PASS : Finding.Grade.FAIL,
        overrange + " samples",
        "none at rest",
        "the converter stood at the end of its range",
        overrange == 0
            ? ""
            : "check the four wires of the cell (an open one drives the input to the end),"
                + " the load, the gain");
  }

  private static Finding stuck(RestSeries series, double hertz) {
    int longest = series.longestRepeat();
    double limit = Math.max(20, hertz / 2);
    boolean noisy = series.noiseCounts() > 3;
    boolean repeats = noisy && series.repeatedShare() > 0.3;
    Finding.Grade grade = repeats ? Finding.Grade.WARN : Finding.Grade.PASS;
    if (longest > limit) {
      grade = Finding.Grade.FAIL;
    }
    return new Finding(
        Finding.Check.STUCK,
        grade,
        text("%d equal in a row, %.1f %% repeated", longest, 100 * series.repeatedShare()),
        text("at most %.0f in a row; few repeats", limit),
        repeats
            ? "conversions are sent more than once: the sketch reads faster than the converter"
            : "a live converter flickers in its last digits",
        grade == Finding.Grade.PASS
            ? ""
            : "let the sketch wait for data ready; check that data and clock wires are sound");
  }

  private static Finding clockWire(RestSeries series) {
    int found = series.allOnes();
    return new Finding(
        Finding.Check.CLOCK_WIRE,
        found == 0 ? Finding.Grade.PASS : Finding.Grade.FAIL,
        found + " readings",
        "no stray readings of the form 2^n - 1",
        "clock edges got lost or doubled: the remaining bits were read as ones",
        found == 0
            ? ""
            : "re-solder or shorten the clock wire; keep interrupts off while bits are shifted");
  }

  private static Finding spikes(RestSeries series) {
    int found = series.spikes();
    double share = found / (double) series.size();
    Finding.Grade grade = found <= 1 ? Finding.Grade.PASS : grade(share, 0, 0.01);
    return new Finding(
        Finding.Check.SPIKES,
        grade,
        found + " single readings",
        "at most one beyond 8 times the noise",
        "single readings far from their neighbours",
        grade == Finding.Grade.PASS
            ? ""
            : "check solder joints and supply; keep switching loads off the same supply");
  }

  private static Finding hum(RestSeries series, double hertz, Optional<Calibration> calibration) {
    RestSeries.Tone worst = new RestSeries.Tone(0, 0, 0);
    double mains = 0;
    List<String> unseen = new ArrayList<>();
    for (double frequency : MAINS_HERTZ) {
      double alias = Math.abs(frequency - hertz * Math.rint(frequency / hertz));
      if (alias < LOWEST_ALIAS_HERTZ) {
        unseen.add(text("%.0f Hz", frequency));
      } else {
        RestSeries.Tone tone =
            series.strongest(
                Math.max(LOWEST_ALIAS_HERTZ, alias - MAINS_HALF_BAND_HERTZ),
                Math.min(hertz / 2, alias + MAINS_HALF_BAND_HERTZ));
        if (tone.significance() > worst.significance()) {
          worst = tone;
          mains = frequency;
        }
      }
    }
    boolean seen = worst.significance() > SURE;
    String blind =
        unseen.isEmpty() ? "" : "; cannot be seen at this rate: " + String.join(", ", unseen);
    return new Finding(
        Finding.Check.HUM,
        seen ? Finding.Grade.WARN : Finding.Grade.PASS,
        seen
            ? text(
                    "amplitude %.3g counts%s at %.2f Hz, as %.0f Hz looks at this rate",
                    worst.amplitudeCounts(),
                    inGramForce(worst.amplitudeCounts(), calibration),
                    worst.hertz(),
                    mains)
                + blind
            : "none" + blind,
        "no tone where 50, 60, 100 or 120 Hz would show",
        "mains hum in the cell's wires or supply",
        seen ? "twist and shield the cell's wires, ground one end; move supplies away" : "");
  }

  private static Finding clock(double ppm) {
    return Math.abs(ppm) > NO_OSCILLATOR_PPM ? notInRealTime(ppm) : oscillator(ppm);
  }

  /** No oscillator errs so much: the stream does not run in real time. */
  private static Finding notInRealTime(double ppm) {
    return new Finding(
        Finding.Check.CLOCK,
        Finding.Grade.WARN,
        text("device time runs %.3g times as fast as the host's", 1 / (1 + ppm / 1e6)),
        "within ±1000 ppm of it",
        "no oscillator is so far off: the stream runs faster or slower than real time, as a virtual"
            + " rig with --speed or a replay does, or its time stamps are in another unit; all else"
            + " here goes by the device's time",
        "if this is a real rig, see that its stamps are microseconds (firmware-protocol.md)");
  }

  private static Finding oscillator(double ppm) {
    Finding.Grade grade = grade(Math.abs(ppm), 1000, 20_000);
    return new Finding(
        Finding.Check.CLOCK,
        grade,
        text("%.0f ppm %s", Math.abs(ppm), ppm > 0 ? "slow" : "fast"),
        "within ±1000 ppm",
        "device clock against host clock; loading rates are wrong by as much",
        grade == Finding.Grade.PASS
            ? ""
            : "a ceramic resonator or an internal oscillator does this; a crystal does not: have the"
                + " sketch stamp by a crystal");
  }

  private Finding loss(Circumstances known) {
    double share = (lost + known.badFrames()) / (double) Math.max(1, size + lost);
    boolean clean = lost == 0 && known.badFrames() == 0 && breaks == 0;
    Finding.Grade grade = clean ? Finding.Grade.PASS : grade(Math.max(share, 1e-9), 0, 0.001);
    return new Finding(
        Finding.Check.LOSS,
        grade,
        text(
            "%d samples lost, %d of %d frames bad, %d breaks",
            lost, known.badFrames(), known.goodFrames() + known.badFrames(), breaks),
        "none",
        "what the device sent and the host did not get",
        clean ? "" : "try another cable and port, no hub; raise the baud rate or lower the rate");
  }
}
