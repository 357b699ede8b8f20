package snick.virtualrig.signal;

import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.Consumer;
import snick.quantity.SampleRate;
import snick.virtualrig.bench.Creep;
import snick.virtualrig.bench.MechanicalRig;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.script.Action;
import snick.virtualrig.settings.ConverterSettings;
import snick.virtualrig.settings.RigSettings;

/**
 * The whole way from hand to counts. Pure and seeded: the same settings, seed and actions give the
 * same counts. For one thread.
 *
 * <p>Force is followed in fine steps of at most 0.2 ms; the break is placed exactly inside its
 * step. Times are s and ns of the rig's own true time, 0 at power-on.
 */
public final class SignalModel implements Amplifier {
  private static final double LONGEST_STEP_SECONDS = 2e-4;
  private static final int FEWEST_STEPS = 32;

  private final MechanicalRig bench;
  private final Creep creep;
  private final Converter converter;
  private ConverterSettings settings;
  private AmplifierFilter filter;
  private double[] stepMeans;
  private double originSeconds;
  private long conversionsSinceOrigin;

  /**
   * @param truths told of every event, its time in ns of true time
   */
  public SignalModel(RigSettings settings, long seed, Consumer<TrueCut> truths) {
    this.bench = new MechanicalRig(settings.hand(), settings.fixture(), stream(seed, 1), truths);
    this.creep = new Creep(settings.fixture());
    this.converter =
        new Converter(
            settings.converter(), settings.disturbance(), stream(seed, 2), stream(seed, 3));
    begin(settings.converter());
  }

  /** One independent stream of chance for each purpose, so that one does not shift another. */
  public static Random stream(long seed, int purpose) {
    return new Random(seed * 0x9E3779B97F4A7C15L + purpose * 0xBF58476D1CE4E5B9L);
  }

  private void begin(ConverterSettings settings) {
    this.settings = settings;
    double periodSeconds = periodSeconds();
    int steps = (int) Math.max(FEWEST_STEPS, Math.ceil(periodSeconds / LONGEST_STEP_SECONDS));
    this.stepMeans = new double[steps];
    this.filter = new AmplifierFilter(settings.filter(), steps);
  }

  private double periodSeconds() {
    return settings.truePeriodNanos() / 1e9;
  }

  /** Ask for an action; it begins when those before it are over. */
  public void perform(Action action) {
    bench.perform(action);
  }

  /** Actions finished since power-on. */
  public long finishedActions() {
    return bench.finishedActions();
  }

  /** True time at which the next conversion ends, ns. */
  public long nextNanos() {
    return Math.round(nextSeconds() * 1e9);
  }

  private double lastSeconds() {
    return originSeconds + conversionsSinceOrigin * periodSeconds();
  }

  private double nextSeconds() {
    return originSeconds + (conversionsSinceOrigin + 1) * periodSeconds();
  }

  /** Let one output period pass; the conversion that ends with it, counts. */
  public int convert() {
    double period = periodSeconds();
    bench.setClock(lastSeconds());
    OptionalDouble steady = bench.steadyGramForce(period);
    double mean = steady.isPresent() ? steady.getAsDouble() : followSteps(period);
    double behindFilter =
        steady.isPresent() ? filter.afterSteadyPeriod(mean) : filter.afterPeriod(stepMeans);
    double seconds = nextSeconds();
    conversionsSinceOrigin++;
    return converter.convert(behindFilter + creep.afterGramForce(mean, period), seconds, period);
  }

  private double followSteps(double period) {
    double sum = 0;
    for (int i = 0; i < stepMeans.length; i++) {
      stepMeans[i] = bench.advance(period / stepMeans.length);
      sum += stepMeans[i];
    }
    return sum / stepMeans.length;
  }

  @Override
  public void setRate(SampleRate rate) {
    originSeconds = lastSeconds();
    conversionsSinceOrigin = 0;
    begin(settings.withRate(rate));
  }

  @Override
  public void setGain(int gain) {
    converter.setGain(gain);
  }

  @Override
  public int temperatureCentiCelsius() {
    return converter.temperatureCentiCelsius();
  }
}
