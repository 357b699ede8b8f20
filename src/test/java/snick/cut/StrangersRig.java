package snick.cut;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * A whole rig drawn at random, and the stream that it sends while somebody cuts. Written apart from
 * the detector and from the virtual rig: a lumped mass on a damped spring, stepped by the classical
 * fourth-order method of Runge and Kutta; a filter; a converter. Times in s, forces in gf.
 *
 * <p>Ranges: resonance 25 to 350 Hz, damping ratio 0.01 to 0.4 (more while a hand loads the
 * filament), parting in 0.2 to 6 ms by three laws, a residual load of 0 to 5 % on every other rig,
 * five kinds of filter, 80 to 1,000 samples/s, drift up to 0.25 gf/s. They are wide on purpose and
 * measured on no rig.
 */
final class StrangersRig {
  /** What was true of one cut. */
  record Truth(double startS, double breakS, double forceGf, double rateGfPerS, Hand hand) {}

  /** What the hand does beside pressing. */
  enum Hand {
    CALM,
    NARROW_TREMOR,
    BROAD_TREMOR,
    CURVE,
    PAUSE,
    STICK_SLIP
  }

  /** What the converter does with the force. */
  enum Filter {
    NONE,
    BOX,
    CASCADE,
    POLE,
    TWO_POLES
  }

  /** How the filament parts. */
  enum Parting {
    LINEAR,
    SMOOTH,
    VISCOELASTIC
  }

  private static final double MOST_STEP_S = 1e-4;

  final double rateHz;
  final double resonanceHz;
  final double damping;
  final double dampingHeld;
  final Filter filter;
  final double filterPeriods;
  final Parting parting;
  double partingS;
  final double residual;
  final double residualS;
  final double noiseGf;
  double driftGfPerS;
  final double countsPerGf;
  final double tremorGf;
  final boolean atStrength;
  private final SplittableRandom random;
  private final int fine;
  private final double step;
  final List<Truth> truths = new ArrayList<>();
  long[] nanos = new long[0];
  int[] counts = new int[0];

  StrangersRig(long seed) {
    random = new SplittableRandom(seed);
    rateHz = logUniform(80, 1000);
    resonanceHz = logUniform(25, 350);
    damping = logUniform(0.01, 0.4);
    dampingHeld = random.nextBoolean() ? damping : Math.min(0.7, damping * logUniform(1, 10));
    filter = pick(Filter.values());
    filterPeriods = filter == Filter.BOX ? 1 + random.nextInt(4) : uniform(0.3, 1.2);
    parting = pick(Parting.values());
    partingS = logUniform(0.0002, 0.006);
    residual = random.nextBoolean() ? 0 : uniform(0.005, 0.05);
    residualS = uniform(0.05, 0.4);
    noiseGf = logUniform(0.03, 0.3);
    driftGfPerS = random.nextInt(3) == 0 ? uniform(-0.25, 0.25) : uniform(-0.02, 0.02);
    countsPerGf = logUniform(200, 1000);
    tremorGf = logUniform(0.1, 1);
    atStrength = random.nextBoolean();
    fine = (int) Math.ceil(1 / (rateHz * MOST_STEP_S));
    step = 1 / (rateHz * fine);
  }

  @Override
  public String toString() {
    return String.format(
        java.util.Locale.ROOT,
        "%4.0f/s f %3.0f Hz z %.3f held %.3f %s %.2f parting %s %.2f ms residual %.1f%% %.2f s noise"
            + " %.2f drift %.2f tremor %.2f %s",
        rateHz,
        resonanceHz,
        damping,
        dampingHeld,
        filter,
        filterPeriods,
        parting,
        partingS * 1e3,
        residual * 100,
        residualS,
        noiseGf,
        driftGfPerS,
        tremorGf,
        atStrength ? "at strength" : "at instant");
  }

  /** The same rig with another drift. */
  StrangersRig drifting(double gfPerS) {
    driftGfPerS = gfPerS;
    return this;
  }

  /** The same rig with a filament that parts in another time. */
  StrangersRig partingIn(double seconds) {
    partingS = seconds;
    return this;
  }

  /** Makes the stream: so many cuts, each after a rest between these, s. */
  StrangersRig record(int cuts, double leastRestS, double mostRestS) {
    Grower force = new Grower();
    List<Integer> breaks = new ArrayList<>();
    rest(force, 2.5, 0);
    for (int i = 0; i < cuts; i++) {
      rest(force, uniform(leastRestS, mostRestS), i == 0 ? 0 : carried);
      breaks.add(press(force));
    }
    rest(force, 2.5, carried);
    double[] seen = filtered(mechanics(force, breaks));
    convert(seen);
    return this;
  }

  /** Load that remains of the last cut at the start of the next rest, gf. */
  private double carried;

  private void rest(Grower force, double seconds, double remains) {
    int n = (int) (seconds / step);
    for (int i = 0; i < n; i++) {
      force.add(i * step < residualS ? remains : 0);
    }
  }

  /** One press until the filament parts; index of the break. */
  private int press(Grower force) {
    Hand hand = pick(Hand.values());
    double strength = logUniform(30, 250);
    double rate = Math.min(logUniform(15, 300), strength / 0.25);
    double seconds = strength / rate;
    Tremor tremor = new Tremor(hand);
    double bend = hand == Hand.CURVE ? uniform(-0.4, 0.4) : 0;
    double pauseAt = hand == Hand.PAUSE ? uniform(0.3, 0.8) * seconds : Double.MAX_VALUE;
    double pauseS = uniform(0.1, 0.4);
    double slipGf = hand == Hand.STICK_SLIP ? uniform(0.5, 2) : 0;
    double slack = 0;
    int start = force.size;
    for (int i = 0; ; i++) {
      double t = i * step;
      double pressing = t < pauseAt ? t : Math.max(pauseAt, t - pauseS);
      double u = pressing / seconds;
      double load = strength * u * (1 + bend * (1 - u));
      // The edge sticks and the force builds up faster than the hand presses; then it slips.
      slack = slipGf > 0 ? (slack + rate * step * 0.7) % slipGf : 0;
      double touch = Math.min(1, load / 5);
      double f = load + touch * (slack - 0.5 * slipGf + tremor.next());
      boolean parts = atStrength ? f >= strength : u >= 1;
      if (parts) {
        int at = force.size;
        truths.add(new Truth(start * step, at * step, f, rate * (1 - bend), hand));
        part(force, f);
        carried = residual * f;
        return at;
      }
      force.add(f);
      if (force.size - start > 60 / step) {
        throw new IllegalStateException("the filament never parts");
      }
    }
  }

  private void part(Grower force, double from) {
    double rest = residual * from;
    int n = (int) Math.ceil((parting == Parting.VISCOELASTIC ? 3 : 1) * partingS / step);
    for (int i = 0; i <= n; i++) {
      double u = i * step / partingS;
      double share =
          switch (parting) {
            case LINEAR -> Math.max(0, 1 - u);
            case SMOOTH -> u >= 1 ? 0 : 0.5 * (1 + Math.cos(Math.PI * u));
            case VISCOELASTIC -> Math.exp(-2 * u);
          };
      force.add(rest + (from - rest) * share);
    }
  }

  /** Sum of sinusoids of random phase: one of 5 to 12 Hz, or thirty from 1 to 25 Hz. */
  private final class Tremor {
    private final double[] hertz;
    private final double[] phase;
    private final double amplitude;
    private int i;

    Tremor(Hand hand) {
      int n = hand == Hand.NARROW_TREMOR ? 3 : hand == Hand.BROAD_TREMOR ? 30 : 0;
      hertz = new double[n];
      phase = new double[n];
      double centre = uniform(5, 12);
      for (int k = 0; k < n; k++) {
        hertz[k] = n == 3 ? centre * uniform(0.95, 1.05) : uniform(1, 25);
        phase[k] = uniform(0, 2 * Math.PI);
      }
      amplitude = n == 0 ? 0 : tremorGf * Math.sqrt(2.0 / n);
    }

    double next() {
      double sum = 0;
      for (int k = 0; k < hertz.length; k++) {
        sum += Math.sin(2 * Math.PI * hertz[k] * i * step + phase[k]);
      }
      i++;
      return amplitude * sum;
    }
  }

  /** Displacement of the mass in units of force: x'' = w²(F − x) − 2 z w x'. */
  private double[] mechanics(Grower force, List<Integer> breaks) {
    double[] out = new double[force.size];
    double w = 2 * Math.PI * resonanceHz;
    double x = 0;
    double v = 0;
    int next = 0;
    int released = Integer.MIN_VALUE;
    int settle = (int) (1.0 / step);
    for (int i = 0; i < out.length; i++) {
      if (next < breaks.size() && i >= breaks.get(next)) {
        released = i;
        next++;
      }
      boolean held = force.at[i] > 2 && i - released > settle / 20 && next < breaks.size();
      double c = 2 * (held ? dampingHeld : damping) * w;
      double f = force.at[i];
      double k1 = w * w * (f - x) - c * v;
      double v2 = v + 0.5 * step * k1;
      double k2 = w * w * (f - (x + 0.5 * step * v)) - c * v2;
      double v3 = v + 0.5 * step * k2;
      double k3 = w * w * (f - (x + 0.5 * step * v2)) - c * v3;
      double v4 = v + step * k3;
      double k4 = w * w * (f - (x + step * v3)) - c * v4;
      x += step / 6 * (v + 2 * v2 + 2 * v3 + v4);
      v += step / 6 * (k1 + 2 * k2 + 2 * k3 + k4);
      out[i] = x;
    }
    return out;
  }

  private double[] filtered(double[] x) {
    double tau = filterPeriods / rateHz;
    return switch (filter) {
      case NONE -> x;
      case BOX -> box(x, ((int) filterPeriods) * fine);
      case CASCADE -> box(box(box(x, fine), fine), (int) Math.ceil(filterPeriods * fine));
      case POLE -> pole(x, tau);
      case TWO_POLES -> pole(pole(x, tau), 0.6 * tau);
    };
  }

  /** From the break to the equal-area instant of an ideal reading, s. */
  double lagS() {
    double tau = filterPeriods / rateHz;
    double filterS =
        switch (filter) {
          case NONE -> 0;
          case BOX -> (int) filterPeriods / rateHz / 2;
          case CASCADE -> 1 / rateHz + Math.ceil(filterPeriods * fine) * step / 2;
          case POLE -> tau;
          case TWO_POLES -> 1.6 * tau;
        };
    return filterS + 2 * damping / (2 * Math.PI * resonanceHz) + partingDelayS();
  }

  /** From the break to the equal-area instant of the force itself: half of each law's time, s. */
  double partingDelayS() {
    return partingS / 2;
  }

  /** By what the fixture follows a steady rise later in a hand than it does free, s. */
  double heldLagS() {
    return 2 * (dampingHeld - damping) / (2 * Math.PI * resonanceHz);
  }

  private static double[] box(double[] x, int width) {
    double[] out = new double[x.length];
    double sum = 0;
    for (int i = 0; i < x.length; i++) {
      sum += x[i] - (i >= width ? x[i - width] : 0);
      out[i] = sum / width;
    }
    return out;
  }

  private double[] pole(double[] x, double tau) {
    double[] out = new double[x.length];
    double keep = Math.exp(-step / tau);
    double y = 0;
    for (int i = 0; i < x.length; i++) {
      y = x[i] + (y - x[i]) * keep;
      out[i] = y;
    }
    return out;
  }

  private void convert(double[] seen) {
    int phase = random.nextInt(fine);
    int n = (seen.length - phase) / fine;
    nanos = new long[n];
    counts = new int[n];
    java.util.Random gauss = new java.util.Random(random.nextLong());
    for (int i = 0; i < n; i++) {
      double t = (phase + (double) i * fine) * step;
      double gf = seen[phase + i * fine] + noiseGf * gauss.nextGaussian() + driftGfPerS * t;
      nanos[i] = Math.round(t * 1e6) * 1000;
      counts[i] = (int) Math.round(40_000 + countsPerGf * gf);
    }
  }

  private double uniform(double from, double to) {
    return from + (to - from) * random.nextDouble();
  }

  private double logUniform(double from, double to) {
    return from * Math.exp(random.nextDouble() * Math.log(to / from));
  }

  private <T> T pick(T[] of) {
    return of[random.nextInt(of.length)];
  }

  /** Numbers that grow. */
  private static final class Grower {
    double[] at = new double[1 << 20];
    int size;

    void add(double value) {
      if (size == at.length) {
        at = java.util.Arrays.copyOf(at, 2 * size);
      }
      at[size++] = value;
    }
  }
}
