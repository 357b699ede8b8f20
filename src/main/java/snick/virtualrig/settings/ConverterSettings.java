package snick.virtualrig.settings;

import java.util.Objects;
import snick.quantity.SampleRate;

/**
 * The bridge amplifier and its 24-bit converter.
 *
 * @param rate nominal output rate
 * @param rateErrorPpm error of the converter's own oscillator, 10⁻⁶
 * @param filter form of its filter
 * @param zeroCounts reading without load at gain 128, counts
 * @param countsPerGramForce sensitivity at gain 128, counts/gf; negative for a reversed cell
 * @param gain gain at power-on, 1 to 65535
 */
public record ConverterSettings(
    SampleRate rate,
    double rateErrorPpm,
    FilterShape filter,
    int zeroCounts,
    double countsPerGramForce,
    int gain) {
  /** Gain at which zero and sensitivity are stated. */
  public static final int REFERENCE_GAIN = 128;

  /** 80 samples per second through a fourth-order filter. */
  public static final ConverterSettings USUAL =
      new ConverterSettings(new SampleRate(80), 0, FilterShape.SINC4, 84_210, 437.25, 128);

  public ConverterSettings {
    Objects.requireNonNull(rate);
    Objects.requireNonNull(filter);
    SettingRange.check("rate error, ppm,", rateErrorPpm, -200_000, 200_000);
    SettingRange.check("zero, counts,", zeroCounts, -(1 << 23), (1 << 23) - 1.0);
    SettingRange.check("sensitivity, counts/gf,", Math.abs(countsPerGramForce), 1e-3, 1e6);
    SettingRange.check("gain", gain, 1, 65_535);
  }

  /** The same at another rate. */
  public ConverterSettings withRate(SampleRate other) {
    return new ConverterSettings(other, rateErrorPpm, filter, zeroCounts, countsPerGramForce, gain);
  }

  /** Delay of a ramp through the filter, ns. */
  public long filterDelayNanos() {
    return Math.round(filter.delayPeriods() * truePeriodNanos());
  }

  /** True time between two readings, ns. */
  public double truePeriodNanos() {
    return rate.periodNanos() / (1 + rateErrorPpm * 1e-6);
  }
}
