package snick.cut.response;

import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * How a sudden fall of force looks through the rig and its filter: 1 long before, 0 long after, as
 * a function of the time since the equal-area instant. Sampled far denser than any one fall,
 * because falls meet the sampling clock at all phases (equivalent-time sampling). Immutable.
 */
public final class StepShape {
  /**
   * Nine pieces of {@link ShapeFit}: one and a half sampling periods, or 4.5 ms where pieces are as
   * short as they get (our choice).
   */
  private static final double OVER_STEPS = 1.5 * ShapeFit.PIECES_A_PERIOD;

  private final double firstSeconds;
  private final double stepSeconds;
  private final double[] shares;
  private final double[] uncertainties;

  /**
   * Copies its arguments.
   *
   * @param firstSeconds time of the first value since the equal-area instant, s
   * @param stepSeconds time from one value to the next, s, above 0
   * @param shares share of the step that is still to fall, at each time
   * @param uncertainties standard uncertainty of each, noise of one sample aside, for one more fall
   */
  public StepShape(
      double firstSeconds, double stepSeconds, double[] shares, double[] uncertainties) {
    if (!(stepSeconds > 0) || shares.length < 2 || shares.length != uncertainties.length) {
      throw new IllegalArgumentException(
          shares.length + " values with " + uncertainties.length + " uncertainties");
    }
    this.firstSeconds = firstSeconds;
    this.stepSeconds = stepSeconds;
    this.shares = shares.clone();
    this.uncertainties = uncertainties.clone();
  }

  /** The same counted from an instant that lies later, s. */
  StepShape countedFrom(double laterSeconds) {
    return new StepShape(firstSeconds - laterSeconds, stepSeconds, shares, uncertainties);
  }

  /** Share of the step still to fall at a time since the equal-area instant, s. */
  public double at(double seconds) {
    return between(shares, 1, 0, seconds);
  }

  /** Standard uncertainty of {@link #at} for one more fall, noise of its samples aside. */
  public double uncertaintyAt(double seconds) {
    return between(
        uncertainties, uncertainties[0], uncertainties[uncertainties.length - 1], seconds);
  }

  /**
   * Greatest of {@link #uncertaintyAt} once a parting is over and most filters have settled. Half a
   * piece is allowed for, so that rounding does not count one that ends just there.
   */
  double laterUncertainty() {
    double over = OVER_STEPS * stepSeconds;
    return IntStream.range(0, uncertainties.length)
        .filter(i -> firstSeconds + (i - 0.5) * stepSeconds > over)
        .mapToDouble(i -> uncertainties[i])
        .max()
        .orElse(0);
  }

  /**
   * Integral of {@link #at} from a time on, s: with force F at the instant, rate r and remainder R
   * a fall reads R + (F − R)·at(t) − r·areaFrom(t).
   */
  public double areaFrom(double seconds) {
    double last = lastSeconds();
    double area = 0;
    double from = Math.min(last, seconds);
    if (from < firstSeconds) {
      area += firstSeconds - from;
      from = firstSeconds;
    }
    int next = (int) Math.floor((from - firstSeconds) / stepSeconds) + 1;
    if (next < shares.length) {
      double to = firstSeconds + next * stepSeconds;
      area += 0.5 * (at(from) + shares[next]) * (to - from);
      for (int i = next + 1; i < shares.length; i++) {
        area += 0.5 * (shares[i - 1] + shares[i]) * stepSeconds;
      }
    }
    return area;
  }

  private double between(double[] values, double before, double after, double seconds) {
    double at = (seconds - firstSeconds) / stepSeconds;
    if (!(at >= 0)) {
      return before;
    }
    int i = (int) Math.min(at, Integer.MAX_VALUE);
    if (i >= values.length - 1) {
      return after;
    }
    return values[i] + (at - i) * (values[i + 1] - values[i]);
  }

  /** Number of values. */
  public int size() {
    return shares.length;
  }

  /** Time of the first value since the equal-area instant, s. */
  public double firstSeconds() {
    return firstSeconds;
  }

  /** Time from one value to the next, s. */
  public double stepSeconds() {
    return stepSeconds;
  }

  /** Time of the last value since the equal-area instant, s. */
  public double lastSeconds() {
    return firstSeconds + (shares.length - 1) * stepSeconds;
  }

  /** Value {@code i}. */
  public double share(int i) {
    return shares[i];
  }

  /** Standard uncertainty of value {@code i}. */
  public double uncertainty(int i) {
    return uncertainties[i];
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof StepShape that
        && firstSeconds == that.firstSeconds
        && stepSeconds == that.stepSeconds
        && Arrays.equals(shares, that.shares)
        && Arrays.equals(uncertainties, that.uncertainties);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(shares);
  }

  @Override
  public String toString() {
    return "StepShape[" + shares.length + " values from " + firstSeconds + " s]";
  }
}
