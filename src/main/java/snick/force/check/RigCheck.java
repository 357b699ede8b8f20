package snick.force.check;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.force.budget.Calibration;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.quantity.Force;
import snick.quantity.SampleRate;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleBuffer;
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

  private final SampleBuffer kept = new SampleBuffer(MOST_SAMPLES);
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
    kept.add(deviceNanos, reading);
  }

  @Override
  public void overrange(long deviceNanos, Rail rail) {
    overrange++;
  }

  @Override
  public void gap(Gap gap) {
    lost += gap.lostSamples();
    breaks++;
    if (kept.size() > 0 && !kept.isFull()) {
      gapNanos += gap.toNanos() - gap.fromNanos();
    }
  }

  /** Without effect: a check ends when the person has seen enough. */
  @Override
  public void end() {}

  /**
   * The findings, in the order of {@link CheckResult.Check}.
   *
   * @throws NotAccepted with fewer than 20 samples
   */
  public List<CheckResult> findings(Circumstances known) {
    int size = kept.size();
    if (size < FEWEST_SAMPLES || spanNanos() <= 0) {
      throw new NotAccepted("look.too_few", "n", size, "overrange", overrange);
    }
    RestSeries series = new RestSeries(kept.nanos(0, size), kept.counts(0, size));
    double hertz = rateHertz();
    List<CheckResult> findings = new ArrayList<>();
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
    long spent = spanNanos() - gapNanos;
    long intervals = kept.size() - 1L + overrange;
    return intervals * 1e9 / (spent > 0 ? spent : spanNanos());
  }

  private long spanNanos() {
    return kept.nanos(kept.size() - 1) - kept.nanos(0);
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }

  /** Three digits at least, and no power of ten. */
  private static String digits(double value) {
    return Math.abs(value) < 1000 ? text("%.3g", value) : text("%.0f", value);
  }

  /** {@code counts}, with what they weigh where that is known. */
  private static Phrase counts(String key, double counts, Optional<Calibration> calibration) {
    return calibration
        .map(c -> Phrase.of(key + "_gf", "n", digits(counts), "gf", inGramForce(counts, c)))
        .orElseGet(() -> Phrase.of(key, "n", digits(counts)));
  }

  private static String inGramForce(double counts, Calibration by) {
    return digits(counts / by.curve().slopeCountsPerNewton(0) / Force.NEWTONS_PER_GRAM_FORCE);
  }

  private static Optional<Phrase> unless(boolean fine, String remedy) {
    return fine ? Optional.empty() : Optional.of(Phrase.of(remedy));
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

  private static CheckResult.Grade grade(double value, double warn, double fail) {
    if (!(value <= fail)) {
      return CheckResult.Grade.FAIL;
    }
    return value <= warn ? CheckResult.Grade.PASS : CheckResult.Grade.WARN;
  }

  private static CheckResult rate(double hertz, Optional<SampleRate> nominal) {
    double away = nominal.map(n -> Math.abs(hertz / n.hertz() - 1)).orElse(0.0);
    CheckResult.Grade byNominal = grade(away, 0.05, 0.2);
    boolean slow = hertz < 20;
    CheckResult.Grade grade =
        slow && byNominal == CheckResult.Grade.PASS ? CheckResult.Grade.WARN : byNominal;
    return new CheckResult(
        CheckResult.Check.RATE,
        grade,
        Phrase.of("look.rate_is", "hertz", text("%.3f", hertz)),
        nominal
            .map(n -> Phrase.of("look.rate_near", "hertz", text("%.3f", n.hertz())))
            .orElseGet(() -> Phrase.of("look.rate_least")),
        Phrase.of(slow ? "look.rate_slow" : "look.rate_means"),
        unless(grade == CheckResult.Grade.PASS, "look.rate_do"));
  }

  private static CheckResult noise(RestSeries series, Optional<Calibration> calibration) {
    double sd = series.noiseCounts();
    OptionalDouble gf = gramForce(sd, calibration);
    CheckResult.Grade grade =
        gf.isPresent() ? grade(gf.getAsDouble(), 0.5, 2) : CheckResult.Grade.UNKNOWN;
    return new CheckResult(
        CheckResult.Check.NOISE,
        grade,
        counts("look.counts", sd, calibration),
        Phrase.of(calibration.isPresent() ? "look.noise_most" : "look.noise_most_once_calibrated"),
        Phrase.of("look.noise_means"),
        unless(
            grade == CheckResult.Grade.PASS,
            grade == CheckResult.Grade.UNKNOWN ? "look.noise_calibrate" : "look.noise_do"));
  }

  private static CheckResult drift(RestSeries series, Optional<Calibration> calibration) {
    double drift = series.driftCountsPerMinute();
    OptionalDouble gf = gramForce(drift, calibration);
    double inNoise = Math.abs(drift) / Math.max(1, series.noiseCounts());
    CheckResult.Grade grade =
        gf.isPresent() ? grade(gf.getAsDouble(), 1, 10) : grade(inNoise, 10, 100);
    return new CheckResult(
        CheckResult.Check.DRIFT,
        grade,
        counts("look.counts_a_minute", drift, calibration),
        Phrase.of(calibration.isPresent() ? "look.drift_most" : "look.drift_most_in_noise"),
        Phrase.of("look.drift_means"),
        unless(grade == CheckResult.Grade.PASS, "look.drift_do"));
  }

  private CheckResult rails() {
    return new CheckResult(
        CheckResult.Check.OVERRANGE,
        overrange == 0 ? CheckResult.Grade.PASS : CheckResult.Grade.FAIL,
        Phrase.of("look.overrange_is", "n", overrange),
        Phrase.of("look.overrange_none"),
        Phrase.of("look.overrange_means"),
        unless(overrange == 0, "look.overrange_do"));
  }

  private static CheckResult stuck(RestSeries series, double hertz) {
    int longest = series.longestRepeat();
    double limit = Math.max(20, hertz / 2);
    boolean noisy = series.noiseCounts() > 3;
    boolean repeats = noisy && series.repeatedShare() > 0.3;
    CheckResult.Grade grade = repeats ? CheckResult.Grade.WARN : CheckResult.Grade.PASS;
    if (longest > limit) {
      grade = CheckResult.Grade.FAIL;
    }
    return new CheckResult(
        CheckResult.Check.STUCK,
        grade,
        Phrase.of(
            "look.stuck_is", "n", longest, "share", text("%.1f", 100 * series.repeatedShare())),
        Phrase.of("look.stuck_most", "n", text("%.0f", limit)),
        Phrase.of(repeats ? "look.stuck_sent_twice" : "look.stuck_means"),
        unless(grade == CheckResult.Grade.PASS, "look.stuck_do"));
  }

  private static CheckResult clockWire(RestSeries series) {
    int found = series.allOnes();
    return new CheckResult(
        CheckResult.Check.CLOCK_WIRE,
        found == 0 ? CheckResult.Grade.PASS : CheckResult.Grade.FAIL,
        Phrase.of("look.clock_wire_is", "n", found),
        Phrase.of("look.clock_wire_none"),
        Phrase.of("look.clock_wire_means"),
        unless(found == 0, "look.clock_wire_do"));
  }

  private static CheckResult spikes(RestSeries series) {
    int found = series.spikes();
    double share = found / (double) series.size();
    CheckResult.Grade grade = found <= 1 ? CheckResult.Grade.PASS : grade(share, 0, 0.01);
    return new CheckResult(
        CheckResult.Check.SPIKES,
        grade,
        Phrase.of("look.spikes_are", "n", found),
        Phrase.of("look.spikes_most"),
        Phrase.of("look.spikes_mean"),
        unless(grade == CheckResult.Grade.PASS, "look.spikes_do"));
  }

  private static CheckResult hum(
      RestSeries series, double hertz, Optional<Calibration> calibration) {
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
    Phrase found =
        seen
            ? Phrase.of("look.hum_is")
                .with("amplitude", counts("look.counts", worst.amplitudeCounts(), calibration))
                .with("hertz", text("%.2f", worst.hertz()))
                .with("mains", text("%.0f", mains))
            : Phrase.of("look.hum_none");
    return new CheckResult(
        CheckResult.Check.HUM,
        seen ? CheckResult.Grade.WARN : CheckResult.Grade.PASS,
        unseen.isEmpty()
            ? found
            : Phrase.of("look.hum_blind", "found", found, "unseen", List.<Object>copyOf(unseen)),
        Phrase.of("look.hum_no_tone"),
        Phrase.of("look.hum_means"),
        unless(!seen, "look.hum_do"));
  }

  private static CheckResult clock(double ppm) {
    return Math.abs(ppm) > NO_OSCILLATOR_PPM ? notInRealTime(ppm) : oscillator(ppm);
  }

  /** No oscillator errs so much: the stream does not run in real time. */
  private static CheckResult notInRealTime(double ppm) {
    return new CheckResult(
        CheckResult.Check.CLOCK,
        CheckResult.Grade.WARN,
        Phrase.of("look.clock_runs", "ratio", digits(1 / (1 + ppm / 1e6))),
        Phrase.of("look.clock_within"),
        Phrase.of("look.clock_not_real_time"),
        Optional.of(Phrase.of("look.clock_check_stamps")));
  }

  private static CheckResult oscillator(double ppm) {
    CheckResult.Grade grade = grade(Math.abs(ppm), 1000, 20_000);
    return new CheckResult(
        CheckResult.Check.CLOCK,
        grade,
        Phrase.of(
            ppm > 0 ? "look.clock_slow" : "look.clock_fast", "ppm", text("%.0f", Math.abs(ppm))),
        Phrase.of("look.clock_within"),
        Phrase.of("look.clock_means"),
        unless(grade == CheckResult.Grade.PASS, "look.clock_do"));
  }

  private CheckResult loss(Circumstances known) {
    double share = (lost + known.badFrames()) / (double) Math.max(1, kept.size() + lost);
    boolean clean = lost == 0 && known.badFrames() == 0 && breaks == 0;
    CheckResult.Grade grade =
        clean ? CheckResult.Grade.PASS : grade(Math.max(share, 1e-9), 0, 0.001);
    return new CheckResult(
        CheckResult.Check.LOSS,
        grade,
        Phrase.of("look.loss_is")
            .with("lost", lost)
            .with("bad", known.badFrames())
            .with("frames", known.goodFrames() + known.badFrames())
            .with("breaks", breaks),
        Phrase.of("look.loss_none"),
        Phrase.of("look.loss_means"),
        unless(clean, "look.loss_do"));
  }
}
