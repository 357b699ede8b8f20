package snick.virtualrig.signal;

import java.util.Random;

/** Temperature of the electronics: warming after power-on, and slow wandering about it. */
final class Warmth {
  private static final double ROOM_CELSIUS = 21;
  private static final double WARM_UP_SECONDS = 400;
  private static final double WANDER_SECONDS = 200;
  private static final double WANDER_KELVIN = 0.1;

  private final double warmUpKelvin;
  private final Random random;
  private double warmedKelvin;
  private double wanderedKelvin;
  private double stepSeconds;
  private double approach;
  private double kept;
  private double freshKelvin;

  Warmth(double warmUpKelvin, Random random) {
    this.warmUpKelvin = warmUpKelvin;
    this.random = random;
  }

  void pass(double seconds) {
    if (seconds != stepSeconds) {
      begin(seconds);
    }
    warmedKelvin -= (warmUpKelvin - warmedKelvin) * approach;
    wanderedKelvin = kept * wanderedKelvin + freshKelvin * random.nextGaussian();
  }

  private void begin(double seconds) {
    stepSeconds = seconds;
    approach = StrictMath.expm1(-seconds / WARM_UP_SECONDS);
    kept = StrictMath.exp(-seconds / WANDER_SECONDS);
    freshKelvin = WANDER_KELVIN * StrictMath.sqrt(1 - kept * kept);
  }

  /** Change since power-on, K. */
  double changeKelvin() {
    return warmedKelvin + wanderedKelvin;
  }

  /** Temperature, 0.01 °C. */
  int centiCelsius() {
    return (int) Math.round(100 * (ROOM_CELSIUS + changeKelvin()));
  }
}
