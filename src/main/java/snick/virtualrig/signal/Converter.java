package snick.virtualrig.signal;

import java.util.Random;
import snick.virtualrig.settings.ConverterSettings;
import snick.virtualrig.settings.Disturbance;

/**
 * From force behind the filter to counts: zero, sensitivity, gain, noise, hum, drift, bad readings,
 * and the ends of a 24-bit two's-complement range.
 */
public final class Converter {
  private static final int HIGHEST = (1 << 23) - 1;
  private static final int LOWEST = -(1 << 23);

  private final ConverterSettings settings;
  private final Disturbance disturbance;
  private final Warmth warmth;
  private final Random noise;
  private final Random chance;
  private int gain;
  private double humPeriodSeconds;
  private double humGain;

  Converter(ConverterSettings settings, Disturbance disturbance, Random noise, Random chance) {
    this.settings = settings;
    this.disturbance = disturbance;
    this.warmth = new Warmth(disturbance.warmUpKelvin(), chance);
    this.noise = noise;
    this.chance = chance;
    this.gain = settings.gain();
  }

  /**
   * One conversion.
   *
   * @param gramForce force behind the filter, gf
   * @param seconds time at which the conversion ends, s
   * @param periodSeconds true output period, s
   */
  int convert(double gramForce, double seconds, double periodSeconds) {
    warmth.pass(periodSeconds);
    return counts(gramForce + disturbanceGramForce(seconds, periodSeconds));
  }

  private double disturbanceGramForce(double seconds, double periodSeconds) {
    double white = disturbance.noiseGramForce() * noise.nextGaussian();
    double drift =
        disturbance.driftGramForcePerSecond() * seconds
            + disturbance.driftGramForcePerKelvin() * warmth.changeKelvin();
    return white + drift + hum(seconds, periodSeconds) + spike(periodSeconds);
  }

  private double hum(double seconds, double periodSeconds) {
    if (disturbance.humGramForce() == 0) {
      return 0;
    }
    if (periodSeconds != humPeriodSeconds) {
      humPeriodSeconds = periodSeconds;
      humGain = settings.filter().gainAt(disturbance.humHertz() * periodSeconds);
    }
    double middle = seconds - settings.filter().delayPeriods() * periodSeconds;
    double angle = 2 * StrictMath.PI * disturbance.humHertz() * middle;
    return disturbance.humGramForce() * humGain * StrictMath.sin(angle);
  }

  private double spike(double periodSeconds) {
    boolean byChance = chance.nextDouble() < disturbance.spikesPerMinute() * periodSeconds / 60;
    return byChance ? disturbance.spikeGramForce() : 0;
  }

  private int counts(double gramForce) {
    double atReference = settings.zeroCounts() + settings.countsPerGramForce() * gramForce;
    double counts = Math.rint(atReference * gain / ConverterSettings.REFERENCE_GAIN);
    return (int) Math.max(LOWEST, Math.min(HIGHEST, counts));
  }

  /** Whether a reading stands at an end of the range. */
  public static boolean atRail(int counts) {
    return counts >= HIGHEST || counts <= LOWEST;
  }

  void setGain(int gain) {
    this.gain = gain;
  }

  int temperatureCentiCelsius() {
    return warmth.centiCelsius();
  }
}
