package snick.virtualrig.bench;

import java.util.ArrayDeque;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Queue;
import java.util.Random;
import java.util.function.Consumer;
import snick.quantity.Force;
import snick.virtualrig.script.Action;
import snick.virtualrig.settings.Filament;
import snick.virtualrig.settings.FixtureSettings;
import snick.virtualrig.settings.HandSettings;

/**
 * The mechanical side: takes actions one after the other and says what force the cell feels. Pure,
 * for one thread.
 */
public final class MechanicalRig implements LoadCourse.Witness {
  /** Share of a hanging mass's weight that its buoyancy in air takes away (OIML D 28). */
  private static final double BUOYANCY_SHARE = 1.2 / 8000;

  private final HandSettings handSettings;
  private final FixtureSettings fixture;
  private final Random random;
  private final Queue<Action> waiting = new ArrayDeque<>();
  private final Consumer<TrueCut> truths;
  private final Optional<Oscillator> oscillator;
  private final Residue residue = new Residue();
  private LoadCourse motion = new Standing(0, 0);
  private double hangingGramForce;
  private double nowSeconds;
  private long finishedActions;
  private boolean idle = true;
  private int events;

  /**
   * @param truths told of every event, its time in ns since the bench began
   */
  public MechanicalRig(
      HandSettings hand, FixtureSettings fixture, Random random, Consumer<TrueCut> truths) {
    this.handSettings = hand;
    this.fixture = fixture;
    this.oscillator = fixture.mechanics().map(Oscillator::new);
    this.random = random;
    this.truths = truths;
  }

  /** The time is now {@code seconds}: sums of steps would drift from it over days. */
  public void setClock(double seconds) {
    nowSeconds = seconds;
  }

  public void perform(Action action) {
    waiting.add(action);
  }

  /** Actions finished since the beginning. */
  public long finishedActions() {
    return finishedActions;
  }

  /** The steady force, gf, if nothing moves during the next {@code seconds}; they are then past. */
  public OptionalDouble steadyGramForce(double seconds) {
    proceed();
    OptionalDouble steady =
        idle ? OptionalDouble.of(hangingGramForce) : motion.steadyGramForce(seconds);
    if (steady.isEmpty() || !restsAt(steady.getAsDouble())) {
      return OptionalDouble.empty();
    }
    motion.advance(seconds, this);
    nowSeconds += seconds;
    return steady;
  }

  private boolean restsAt(double gramForce) {
    return residue.goneAt(nowSeconds)
        && (oscillator.isEmpty() || oscillator.get().restsAt(gramForce));
  }

  /** Let a step pass; the mean force during it, gf. */
  public double advance(double stepSeconds) {
    proceed();
    double atFilament = idle ? hangingGramForce : motion.advance(stepSeconds, this);
    double mean = atFilament + residue.meanGramForce(nowSeconds, nowSeconds + stepSeconds);
    nowSeconds += stepSeconds;
    return oscillator.isEmpty()
        ? mean
        : oscillator.get().advance(mean, stepSeconds, !idle && motion.handHolds());
  }

  private void proceed() {
    while (motion.over()) {
      if (!idle) {
        finishedActions++;
        idle = true;
      }
      Action action = waiting.poll();
      if (action == null) {
        return;
      }
      begin(action);
    }
  }

  private void begin(Action action) {
    idle = false;
    if (action instanceof Action.Rest rest) {
      motion = new Standing(hangingGramForce, rest.seconds());
    } else if (action instanceof Action.Cut cut) {
      motion = cutting(cut);
    } else if (action instanceof Action.Release release) {
      motion = releasing(release);
    } else if (action instanceof Action.Hang hang) {
      motion = hanging(hang);
    } else if (action instanceof Action.Flick flick) {
      motion = new Flicking(hangingGramForce, flick.peak().gramForce());
    } else if (action instanceof Action.CutThread) {
      motion = threadCutting();
    }
  }

  private LoadCourse cutting(Action.Cut cut) {
    double strength = cut.strength().gramForce();
    Hand hand = hand(cut.rateGramForcePerSecond(), strength);
    return new Cutting(fixture, cut, hand, new Filament(fixture, strength, cut.dips(), random));
  }

  private LoadCourse releasing(Action.Release release) {
    double peak = release.peak().gramForce();
    return new Releasing(
        release,
        hand(release.rateGramForcePerSecond(), peak),
        new Filament(fixture, peak, 0, random),
        fixture.stiffnessGramForcePerMillimetre());
  }

  private Hand hand(double rateGramForcePerSecond, double peakGramForce) {
    return new Hand(
        handSettings,
        fixture.stiffnessGramForcePerMillimetre(),
        rateGramForcePerSecond,
        peakGramForce,
        random);
  }

  private LoadCourse hanging(Action.Hang hang) {
    double before = hangingGramForce;
    double newtons =
        hang.mass().kilograms() * fixture.gravityMetresPerSecondSquared() * (1 - BUOYANCY_SHARE);
    hangingGramForce = Force.ofNewtons(newtons).gramForce();
    return new SwingingMass(before, hangingGramForce);
  }

  private LoadCourse threadCutting() {
    double before = hangingGramForce;
    hangingGramForce = 0;
    return before > 0 ? new ThreadCutting(fixture, before) : new Standing(0, 0);
  }

  @Override
  public void ended(
      TrueCut.Kind kind,
      double gramForce,
      double secondsIntoStep,
      double rateGramForcePerSecond,
      OptionalDouble placeMillimetres) {
    events++;
    if (kind == TrueCut.Kind.SEVERED) {
      residue.begin(fixture.parting(), gramForce, nowSeconds + secondsIntoStep);
    }
    truths.accept(
        new TrueCut(
            events,
            kind,
            Force.ofGramForce(gramForce),
            Math.round((nowSeconds + secondsIntoStep) * 1e9),
            rateGramForcePerSecond,
            placeMillimetres));
  }
}
