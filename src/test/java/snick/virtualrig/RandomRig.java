package snick.virtualrig;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import snick.quantity.SampleRate;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.Altered;
import snick.virtualrig.settings.ConverterSettings;
import snick.virtualrig.settings.DeviceSettings;
import snick.virtualrig.settings.Disturbance;
import snick.virtualrig.settings.FilterShape;
import snick.virtualrig.settings.FixtureSettings;
import snick.virtualrig.settings.HandSettings;
import snick.virtualrig.settings.HandSteadiness;
import snick.virtualrig.settings.Mechanics;
import snick.virtualrig.settings.Parting;
import snick.virtualrig.settings.RigSettings;
import snick.virtualrig.signal.SignalModel;

/**
 * A whole rig drawn from broad ranges: mechanics, parting, remainder, filter, rate, noise, drift
 * and hand. The ranges are of a plausible size, invented; the same seed gives the same rig.
 *
 * @param seed what it was drawn from
 * @param settings the rig
 */
public record RandomRig(long seed, RigSettings settings) {
  private static final double PER_GRAM_FORCE = 437.25;
  private static final double BEFORE_FIRST_SECONDS = 2.5;

  /** Takes readings: device time in ns, and counts, 437.25 for each gf. */
  @FunctionalInterface
  public interface Readings {
    void reading(long nanos, int counts);
  }

  /** The rig of a seed. */
  public static RandomRig of(long seed) {
    Random random = new Random(seed * 7919 + 17);
    RigSettings settings =
        new RigSettings(
            hand(random),
            FixtureSettings.IDEAL.with(mechanics(random)).with(parting(random)),
            Altered.withDrift(
                Altered.withNoiseGramForce(Disturbance.NONE, uniform(random, 0.05, 0.3)),
                oneIn(3, random) ? uniform(random, -0.25, 0.25) : 0),
            Altered.withScale(
                Altered.withFilter(
                    ConverterSettings.USUAL.withRate(
                        new SampleRate(Math.rint(logUniform(random, 80, 1000)))),
                    filter(random)),
                (int) uniform(random, -200_000, 200_000),
                PER_GRAM_FORCE),
            DeviceSettings.USUAL);
    return new RandomRig(seed, settings);
  }

  private static boolean oneIn(int n, Random random) {
    return random.nextInt(n) == 0;
  }

  private static double uniform(Random random, double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  private static double logUniform(Random random, double low, double high) {
    return low * Math.pow(high / low, random.nextDouble());
  }

  private static Mechanics mechanics(Random random) {
    double damping = logUniform(random, 0.01, 0.4);
    double held = Math.min(0.6, damping * uniform(random, 1, 5));
    return new Mechanics(logUniform(random, 25, 350), damping, held);
  }

  private static Parting parting(Random random) {
    Parting.Law[] laws = Parting.Law.values();
    Parting parting = Parting.of(laws[random.nextInt(laws.length)], logUniform(random, 0.2, 6));
    return oneIn(2, random)
        ? parting.leaving(uniform(random, 0, 0.05), uniform(random, 0.05, 0.6))
        : parting;
  }

  /** Five kinds: integrating converter, moving mean, four boxes, one pole, poles in cascade. */
  private static FilterShape filter(Random random) {
    return switch (random.nextInt(5)) {
      case 0 -> FilterShape.ofBoxes(1, 1);
      case 1 -> FilterShape.BOX;
      case 2 -> FilterShape.SINC4;
      case 3 -> FilterShape.ofPoles(1, uniform(random, 0.3, 1.5));
      default -> FilterShape.ofPoles(2 + random.nextInt(2), uniform(random, 0.2, 0.8));
    };
  }

  private static HandSettings hand(Random random) {
    HandSettings hand = HandSettings.CALM.withTremorGramForce(uniform(random, 0, 1.2));
    return (oneIn(2, random) ? Altered.withTremorBand(hand, 1, 25) : hand)
        .with(
            new HandSteadiness(
                oneIn(2, random) ? uniform(random, -0.5, 1.5) : 0,
                oneIn(3, random) ? 1 + random.nextInt(2) : 0,
                uniform(random, 0.05, 0.4),
                oneIn(4, random) ? uniform(random, 0.2, 2) : 0,
                uniform(random, 2, 20)));
  }

  /** Cuts with rests of at least and at most these times before each, s. */
  public Script cuts(int number, double leastRestSeconds, double mostRestSeconds) {
    Random random = new Random(seed * 104_729 + 31);
    List<Action> actions = new ArrayList<>(List.of(new Action.Rest(BEFORE_FIRST_SECONDS)));
    for (int i = 0; i < number; i++) {
      actions.add(new Action.Rest(uniform(random, leastRestSeconds, mostRestSeconds)));
      actions.add(Action.Cut.ofGramForce(logUniform(random, 40, 320), logUniform(random, 40, 200)));
    }
    actions.add(new Action.Rest(BEFORE_FIRST_SECONDS));
    return new Script(actions);
  }

  /** Plays the script; the cuts that truly happened, on the clock of the readings. */
  public List<TrueCut> play(Script script, Readings readings) {
    List<TrueCut> truths = new ArrayList<>();
    SignalModel model = new SignalModel(settings, seed, truths::add);
    script.actions().forEach(model::perform);
    while (model.finishedActions() < script.actions().size()) {
      readings.reading(model.nextNanos(), model.convert());
    }
    return truths;
  }
}
