package snick.cut.response;

import java.util.List;
import java.util.Optional;

/**
 * What falls of one rig at one sampling rate say of its response. The same falls in the same order
 * give the same figures; another order changes their last digits only.
 *
 * <p>How a linear system answers is known from its answers to steps; what is uncertain of it goes
 * on into what is measured with it (Elster and Link, Metrologia 45 (2008) 464, from memory).
 */
public final class Learner {
  /** Fewer falls teach nothing. */
  public static final int FEWEST = 5;

  /**
   * Times after the half fall from which it is taken to ring freely, best first: sampling periods
   * for the filter and seconds for the parting, added.
   */
  private static final double[] FREE_PERIODS = {3.0, 2.2, 1.5, 1.0, 0.5};

  private static final double[] FREE_SECONDS = {0.006, 0.004, 0.002, 0.002, 0.002};

  /**
   * The stretch of the coarse search: late enough for most filters, early enough for most rings.
   */
  private static final double COARSE_PERIODS = 1;

  private static final double COARSE_SECONDS = 0.12;

  /** Times within which it is looked at, s: a remainder that goes or a hand ends free ringing. */
  private static final double[] WITHIN_SECONDS = {0.045, 0.08, 0.16, SeenFall.AFTER_SECONDS};

  /** A longer stretch fits if no more is left over than this times what the shortest leaves. */
  private static final double MOST_LEFT = 1.6;

  /** A ring is known if frequency and damping are as sure as this. */
  private static final double MOST_HERTZ = 0.05;

  private static final double MOST_LOG_DAMPING = 0.4;

  /** Fits that begin early and late differ: so much of the difference counts as uncertainty. */
  private static final double BY_START_SHARE = 0.5;

  /** What the wave leaves over must be small against it where it begins. */
  private static final double MOST_UNEXPLAINED = 0.35;

  /** Falls that differ more than this, in terms of what is usual, show an alias of the ring. */
  private static final double MOST_DIFFERENT = 2;

  /** What is damped more is no swing that a fit tells from the filter's own decay. */
  private static final double MOST_DAMPED = 0.5;

  /** Highest frequency that readings show, in terms of the sampling rate. */
  private static final double HIGHEST = 0.49;

  private Learner() {}

  /** The response that falls show; unknown if they are too few. */
  public static Response of(List<SeenFall> falls) {
    if (falls.size() < FEWEST) {
      return Response.unknown();
    }
    ShapeFit fit = new ShapeFit(falls).fitted();
    Optional<Ring> ring = ring(falls, fit);
    StepShape shape = fit.result();
    double instant =
        shape.firstSeconds()
            + shape.areaFrom(shape.firstSeconds())
            + ring.map(r -> r.areaFrom(shape.lastSeconds())).orElse(0.0);
    return new Response(
        falls.size(),
        ring.map(r -> r.countedFrom(instant)),
        Optional.of(shape.countedFrom(instant)));
  }

  private static Optional<Ring> ring(List<SeenFall> falls, ShapeFit fit) {
    double period = falls.get(0).periodSeconds();
    Optional<RingSearch.Wave> start =
        search(falls, fit, COARSE_PERIODS * period + FREE_SECONDS[3], COARSE_SECONDS).coarse();
    if (start.isEmpty()) {
      return Optional.empty();
    }
    Optional<RingSearch.Fitted> late = fitted(falls, fit, free(0, period), start.get());
    for (int i = 1; i < FREE_PERIODS.length; i++) {
      Optional<RingSearch.Fitted> early = fitted(falls, fit, free(i, period), start.get());
      Optional<Ring> ring =
          late.isPresent() && early.isPresent()
              ? ring(late.get(), early.get(), free(i - 1, period), period)
              : Optional.empty();
      if (ring.isPresent()) {
        return ring;
      }
      late = early;
    }
    return Optional.empty();
  }

  private static double free(int i, double periodSeconds) {
    return FREE_PERIODS[i] * periodSeconds + FREE_SECONDS[i];
  }

  private static RingSearch search(
      List<SeenFall> falls, ShapeFit fit, double from, double withinSeconds) {
    return new RingSearch(falls, fit.shifts(), fit.remainders(), from, from + withinSeconds);
  }

  /** The longest stretch that one wave fits about as well as the shortest. */
  private static Optional<RingSearch.Fitted> fitted(
      List<SeenFall> falls, ShapeFit fit, double freeSeconds, RingSearch.Wave start) {
    Optional<RingSearch.Fitted> best = Optional.empty();
    double least = Double.POSITIVE_INFINITY;
    for (double within : WITHIN_SECONDS) {
      Optional<RingSearch.Fitted> longer =
          search(falls, fit, freeSeconds, within)
              .near(best.isPresent() ? best.get().wave() : start);
      if (longer.isPresent()) {
        double left = longer.get().sigma();
        if (left > MOST_LEFT * least) {
          return best;
        }
        least = Math.min(least, Math.max(left, falls.get(0).noiseShare()));
        best = longer;
      }
    }
    return best;
  }

  private static Optional<Ring> ring(
      RingSearch.Fitted late, RingSearch.Fitted early, double from, double period) {
    RingSearch.Wave wave = late.wave();
    double ofHertz = Math.sqrt(late.varOmega()) / wave.omega();
    double ofDamping = Math.sqrt(late.varBeta()) / wave.beta();
    double byStart = Math.abs(early.wave().hertz() / wave.hertz() - 1);
    double byStartDamping = Math.abs(StrictMath.log(early.wave().ratio() / wave.ratio()));
    double relative = Math.hypot(ofHertz, BY_START_SHARE * byStart);
    double logDamping = Math.hypot(ofDamping, BY_START_SHARE * byStartDamping);
    double strength = wave.strength() * StrictMath.exp(-wave.beta() * from);
    boolean sure = relative < MOST_HERTZ && logDamping < MOST_LOG_DAMPING;
    boolean clear = late.sigma() < MOST_UNEXPLAINED * strength && late.differ() < MOST_DIFFERENT;
    boolean shows = wave.hertz() * period < HIGHEST && wave.ratio() < MOST_DAMPED;
    return sure && clear && shows
        ? Optional.of(
            new Ring(
                wave.hertz(),
                relative * wave.hertz(),
                wave.ratio(),
                logDamping,
                wave.a(),
                wave.b()))
        : Optional.empty();
  }
}
