package snick.virtualrig.settings;

/**
 * What is added to the force between cell and converter. Everything in gf so that it can be
 * compared with a cut.
 *
 * @param noiseGramForce noise of one reading, rms, gf
 * @param humGramForce mains hum before the filter, amplitude, gf
 * @param humHertz mains frequency, Hz
 * @param driftGramForcePerSecond even drift of zero, gf/s
 * @param driftGramForcePerKelvin drift of zero with temperature, gf/K
 * @param warmUpKelvin warming after power-on, K
 * @param spikesPerMinute single bad readings, mean number in a minute
 * @param spikeGramForce size of a bad reading, gf
 */
public record Disturbance(
    double noiseGramForce,
    double humGramForce,
    double humHertz,
    double driftGramForcePerSecond,
    double driftGramForcePerKelvin,
    double warmUpKelvin,
    double spikesPerMinute,
    double spikeGramForce) {
  /** An ordinary bench. */
  public static final Disturbance ORDINARY = new Disturbance(0.15, 0.5, 50, 0, 0.2, 3, 0, 40);

  /** Nothing added. */
  public static final Disturbance NONE = new Disturbance(0, 0, 50, 0, 0, 0, 0, 0);

  public Disturbance {
    SettingRange.check("noise, gf rms,", noiseGramForce, 0, 1000);
    SettingRange.check("hum, gf,", humGramForce, 0, 1000);
    SettingRange.check("mains, Hz,", humHertz, 1, 1000);
    SettingRange.check("drift, gf/s,", driftGramForcePerSecond, -100, 100);
    SettingRange.check("drift, gf/K,", driftGramForcePerKelvin, -100, 100);
    SettingRange.check("warming, K,", warmUpKelvin, -50, 50);
    SettingRange.check("spikes a minute", spikesPerMinute, 0, 1e6);
    SettingRange.check("spike, gf,", spikeGramForce, -1e5, 1e5);
  }

  /** The same with another hum, amplitude before the filter, gf. */
  public Disturbance withHumGramForce(double gramForce) {
    return new Disturbance(
        noiseGramForce,
        gramForce,
        humHertz,
        driftGramForcePerSecond,
        driftGramForcePerKelvin,
        warmUpKelvin,
        spikesPerMinute,
        spikeGramForce);
  }
}
