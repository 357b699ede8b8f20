package snick.virtualrig.settings;

/** Settings of virtual rigs, each the same as another but for one thing. */
public final class Altered {
  private Altered() {}

  /** With another filter. */
  public static ConverterSettings withFilter(ConverterSettings of, FilterShape filter) {
    return new ConverterSettings(
        of.rate(), of.rateErrorPpm(), filter, of.zeroCounts(), of.countsPerGramForce(), of.gain());
  }

  /** With another zero, counts, and sensitivity, counts/gf. */
  public static ConverterSettings withScale(
      ConverterSettings of, int zeroCounts, double countsPerGramForce) {
    return new ConverterSettings(
        of.rate(), of.rateErrorPpm(), of.filter(), zeroCounts, countsPerGramForce, of.gain());
  }

  /** With an oscillator that is off by {@code ppm}. */
  public static ConverterSettings withRateErrorPpm(ConverterSettings of, double ppm) {
    return new ConverterSettings(
        of.rate(), ppm, of.filter(), of.zeroCounts(), of.countsPerGramForce(), of.gain());
  }

  /** With another identity. */
  public static DeviceSettings withDeviceId(DeviceSettings of, long id) {
    return device(of, id, of.startMicros(), of.clockErrorPpm(), of.batchSamples());
  }

  /** With another reading of the counter at power-on, µs. */
  public static DeviceSettings withStartMicros(DeviceSettings of, long micros) {
    return device(of, of.deviceId(), micros, of.clockErrorPpm(), of.batchSamples());
  }

  /** With a clock that runs fast by {@code ppm}. */
  public static DeviceSettings withClockErrorPpm(DeviceSettings of, double ppm) {
    return device(of, of.deviceId(), of.startMicros(), ppm, of.batchSamples());
  }

  /** With another number of samples in a frame. */
  public static DeviceSettings withBatchSamples(DeviceSettings of, int samples) {
    return device(of, of.deviceId(), of.startMicros(), of.clockErrorPpm(), samples);
  }

  private static DeviceSettings device(
      DeviceSettings of, long id, long startMicros, double clockErrorPpm, int batchSamples) {
    return new DeviceSettings(
        id, of.firmware(), startMicros, clockErrorPpm, batchSamples, of.text());
  }

  /** With another noise, gf rms. */
  public static Disturbance withNoiseGramForce(Disturbance of, double gramForce) {
    return disturbance(of, gramForce, of.driftGramForcePerSecond(), of.warmUpKelvin());
  }

  /** With another even drift of zero, gf/s. */
  public static Disturbance withDrift(Disturbance of, double gramForcePerSecond) {
    return disturbance(of, of.noiseGramForce(), gramForcePerSecond, of.warmUpKelvin());
  }

  /** With another warming after power-on, K. */
  public static Disturbance withWarmUpKelvin(Disturbance of, double kelvin) {
    return disturbance(of, of.noiseGramForce(), of.driftGramForcePerSecond(), kelvin);
  }

  private static Disturbance disturbance(
      Disturbance of, double noiseGramForce, double driftGramForcePerSecond, double warmUpKelvin) {
    return new Disturbance(
        noiseGramForce,
        of.humGramForce(),
        of.humHertz(),
        driftGramForcePerSecond,
        of.driftGramForcePerKelvin(),
        warmUpKelvin,
        of.spikesPerMinute(),
        of.spikeGramForce());
  }

  /** With random spikes. */
  public static Disturbance withSpikes(Disturbance of, double perMinute, double gramForce) {
    return new Disturbance(
        of.noiseGramForce(),
        of.humGramForce(),
        of.humHertz(),
        of.driftGramForcePerSecond(),
        of.driftGramForcePerKelvin(),
        of.warmUpKelvin(),
        perMinute,
        gramForce);
  }

  /** At a place of another gravity, m/s². */
  public static FixtureSettings withGravity(FixtureSettings of, double metresPerSecondSquared) {
    return new FixtureSettings(
        of.stiffnessGramForcePerMillimetre(),
        of.stiffening(),
        of.parting(),
        of.mechanics(),
        of.creepShare(),
        of.creepSeconds(),
        metresPerSecondSquared);
  }

  /** A hand whose tremor is spread over another band, Hz. */
  public static HandSettings withTremorBand(HandSettings of, double lowHertz, double highHertz) {
    return new HandSettings(
        of.tremorGramForce(), lowHertz, highHertz, of.gapMillimetres(), of.steadiness());
  }
}
