package snick.cli.bench;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import snick.cut.response.Response;
import snick.cut.response.Ring;
import snick.force.check.CheckResult;

/**
 * What a rig's ring means for whoever cuts on it. The limits are our own, from common practice
 * without source.
 *
 * @param ring how the fixture rings
 * @param samplesPerSecond how often it is looked at
 */
record MechanicsHealth(Ring ring, double samplesPerSecond) {
  /** A ring counts as over when a hundredth of it is left. */
  private static final double OVER_SHARE = 0.01;

  /**
   * Longer than this and it reaches into the next loading of a hand that does not hurry, s (common
   * practice, no source). Cuts are found all the same, with a larger uncertainty.
   */
  private static final double LONGEST_SECONDS = 1;

  /** Fewer readings in one swing do not show its shape. */
  private static final double FEWEST_READINGS_A_SWING = 7;

  /** The share that a force may be wrong by: 1 %, at coverage factor 2. */
  private static final double HELD_SHARE = 0.01;

  private static final double COVERAGE_FACTOR = 2;

  /** Force at the break for which the loading rate is stated, gf. */
  private static final double EXAMPLE_GRAM_FORCE = 100;

  /** A calm hand presses about so fast, gf/s. */
  private static final double USUAL_GRAM_FORCE_PER_SECOND = 100;

  private static final String RING = "ring";

  /** Nothing is known of the fixture. */
  static final List<HealthLine> UNKNOWN =
      List.of(
          HealthLine.unknown(
              RING,
              "too few clear cuts of this rig are stored to show how it rings",
              "flick it when asked to: snick doctor PORT --flick"));

  /** What the falls of cuts say. */
  static List<HealthLine> of(Response response, double samplesPerSecond) {
    if (response.shape().isEmpty()) {
      return UNKNOWN;
    }
    return response
        .ring()
        .map(ring -> new MechanicsHealth(ring, samplesPerSecond).lines())
        .orElse(List.of(withoutRing(response, samplesPerSecond)));
  }

  private static HealthLine withoutRing(Response response, double samplesPerSecond) {
    return !response.swingsUnseen()
        ? HealthLine.pass(RING, text("none shows at %.0f samples/s", samplesPerSecond), "none")
        : HealthLine.warn(
            RING,
            text(
                "falls scatter by %.1f %% of the force (SD) once they should be over",
                100 * response.laterUnlikeness()),
            text("at most %.0f %%", 100 * Response.MOST_UNLIKENESS),
            text(
                "the fixture probably swings faster than %.0f samples/s show: some forces may be"
                    + " further off than they say, and some cuts be missed",
                samplesPerSecond),
            "sample faster, damp the fixture, as with a rubber foot, or switch the amplifier's filter"
                + " on if it has one");
  }

  /** What flicks say. */
  static List<HealthLine> ofFlicks(Optional<Ring> ring, double samplesPerSecond) {
    return ring.map(r -> new MechanicsHealth(r, samplesPerSecond).lines())
        .orElse(
            List.of(
                HealthLine.warn(
                    RING,
                    text("no three flicks agree at %.0f samples/s", samplesPerSecond),
                    "five flicks, two seconds apart",
                    "the fixture does not ring, or too weakly or too fast for this rate",
                    "leave it alone for two seconds, then flick harder")));
  }

  /** Time after which a hundredth of the ring is left, s. */
  double ringSeconds() {
    return -Math.log(OVER_SHARE) * ring.decaySeconds();
  }

  /**
   * The fastest loading of {@link #EXAMPLE_GRAM_FORCE} whose force is still good to 1 %, gf/s. What
   * is not known of the instant of the break is worth that time times the loading rate: where in a
   * sampling period it fell (evenly spread: 1/√12 of it), and the fixture's lag, which a holding
   * hand may change by as much again.
   */
  double fastestGramForcePerSecond() {
    double instantSeconds = Math.hypot(ring.lagSeconds(), 1 / samplesPerSecond / Math.sqrt(12));
    return HELD_SHARE * EXAMPLE_GRAM_FORCE / (COVERAGE_FACTOR * instantSeconds);
  }

  List<HealthLine> lines() {
    return List.of(ringLine(), loadingLine());
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }

  private double neededHertz() {
    return FEWEST_READINGS_A_SWING * ring.hertz();
  }

  private boolean shown() {
    return samplesPerSecond >= neededHertz();
  }

  private HealthLine ringLine() {
    String measured =
        text(
            "rings at %.3g Hz ± %.1g for %.2f s, damping ratio %.2g",
            ring.hertz(),
            COVERAGE_FACTOR * ring.hertzUncertainty(),
            ringSeconds(),
            ring.dampingRatio());
    String expected = text("over within %.2f s", LONGEST_SECONDS);
    String meaning =
        "after every cut the fixture swings on; "
            + text(
                shown()
                    ? "%.0f samples/s shows it"
                    : "%.0f samples/s does not show its shape, and a swing of more than half that rate"
                        + " would look slower than it is",
                samplesPerSecond);
    if (ringSeconds() <= LONGEST_SECONDS) {
      return new HealthLine(RING, CheckResult.Grade.PASS, measured, expected, meaning, "");
    }
    String faster = shown() ? "" : text("; %.0f samples/s or more would show it", neededHertz());
    return HealthLine.warn(
        RING,
        measured,
        expected,
        meaning,
        "add a rubber foot or take grams off the cell, and rest that long between cuts" + faster);
  }

  private HealthLine loadingLine() {
    double fastest = fastestGramForcePerSecond();
    String measured =
        text("a break at %.0f gf holds 1 %% up to %.0f gf/s", EXAMPLE_GRAM_FORCE, fastest);
    String expected = text("at least %.0f gf/s", USUAL_GRAM_FORCE_PER_SECOND);
    return fastest >= USUAL_GRAM_FORCE_PER_SECOND
        ? HealthLine.pass("loading", measured, expected)
        : HealthLine.warn(
            "loading",
            measured,
            expected,
            "pressed faster, what is not known of the instant of the break exceeds 1 % of the force",
            "press slower, sample faster, or stiffen the fixture");
  }
}
