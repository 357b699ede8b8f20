package snick.force.mass;

import java.util.Locale;

/**
 * Density of moist air with its standard uncertainty.
 *
 * @param kilogramsPerCubicMetre kg/m³, 0.5 to 1.5
 * @param standardUncertainty kg/m³, 0 to 0.5
 * @param basis where the figure comes from, for people
 */
public record AirDensity(double kilogramsPerCubicMetre, double standardUncertainty, String basis) {
  /** Density of air in the definition of conventional mass, kg/m³ (OIML D 28). */
  public static final double STANDARD_KILOGRAMS_PER_CUBIC_METRE = 1.2;

  private static final double ICE_POINT_KELVIN = 273.15;
  private static final double CIPM_RELATIVE = 22e-6;

  public AirDensity {
    Range.require("air density", kilogramsPerCubicMetre, 0.5, 1.5, "kg/m³");
    Range.require("standard uncertainty of air density", standardUncertainty, 0, 0.5, "kg/m³");
  }

  /**
   * Nothing measured: 1.2 kg/m³, with ±10 % as half-width of a rectangular distribution, the limits
   * within which OIML R 111-1 takes conventional mass as good (from memory); too narrow above about
   * 1000 m.
   */
  public static AirDensity standard() {
    return new AirDensity(
        STANDARD_KILOGRAMS_PER_CUBIC_METRE,
        0.1 * STANDARD_KILOGRAMS_PER_CUBIC_METRE / Math.sqrt(3),
        "standard air, 1.2 kg/m³ ± 10 %");
  }

  /**
   * Temperature, pressure and humidity beside the rig, with standard uncertainties.
   *
   * @param celsius °C
   * @param hectopascals station pressure, hPa: not reduced to sea level
   * @param relativeHumidityPercent %
   * @param uncertaintyKelvin K
   * @param uncertaintyHectopascals hPa
   * @param uncertaintyPercent % relative humidity
   */
  public record Weather(
      double celsius,
      double hectopascals,
      double relativeHumidityPercent,
      double uncertaintyKelvin,
      double uncertaintyHectopascals,
      double uncertaintyPercent) {
    public Weather {
      Range.require("uncertainty of air temperature", uncertaintyKelvin, 0, 20, "K");
      Range.require("uncertainty of air pressure", uncertaintyHectopascals, 0, 200, "hPa");
      Range.require("uncertainty of humidity", uncertaintyPercent, 0, 50, "%");
    }
  }

  /**
   * CIPM-2007 (Picard et al., Metrologia 45 (2008) 149) with 400 ppm of carbon dioxide: 22e-6
   * relative from 600 hPa to 1100 hPa and 15 °C to 27 °C (range from memory).
   */
  public static AirDensity cipm2007(Weather weather) {
    Range.require("air temperature", weather.celsius(), 15, 27, "°C");
    Range.require("air pressure", weather.hectopascals(), 600, 1100, "hPa");
    Range.require("relative humidity", weather.relativeHumidityPercent(), 0, 100, "%");
    double t = weather.celsius();
    double p = weather.hectopascals();
    double h = weather.relativeHumidityPercent();
    double density = cipmForm(t, p, h);
    double byTemperature =
        (cipmForm(t + 0.5, p, h) - cipmForm(t - 0.5, p, h)) * weather.uncertaintyKelvin();
    double byPressure =
        (cipmForm(t, p + 0.5, h) - cipmForm(t, p - 0.5, h)) * weather.uncertaintyHectopascals();
    double byHumidity =
        (cipmForm(t, p, h + 0.5) - cipmForm(t, p, h - 0.5)) * weather.uncertaintyPercent();
    double byReadings = Math.hypot(Math.hypot(byTemperature, byPressure), byHumidity);
    return new AirDensity(
        density,
        Math.hypot(byReadings, CIPM_RELATIVE * density),
        String.format(Locale.ROOT, "CIPM-2007 at %.4g °C, %.6g hPa, %.3g %%", t, p, h));
  }

  private static double cipmForm(double celsius, double hectopascals, double humidity) {
    double kelvin = ICE_POINT_KELVIN + celsius;
    double pascals = 100 * hectopascals;
    double saturation =
        Math.exp(
            1.2378847e-5 * kelvin * kelvin
                - 1.9121316e-2 * kelvin
                + 33.93711047
                - 6.3431645e3 / kelvin);
    double enhancement = 1.00062 + 3.14e-8 * pascals + 5.6e-7 * celsius * celsius;
    double vapour = humidity / 100 * enhancement * saturation / pascals;
    double molarMassAir = 28.96546e-3;
    double molarMassWater = 18.01528e-3;
    double gasConstant = 8.314472;
    return pascals
        * molarMassAir
        / (compressibility(celsius, kelvin, pascals, vapour) * gasConstant * kelvin)
        * (1 - vapour * (1 - molarMassWater / molarMassAir));
  }

  private static double compressibility(
      double celsius, double kelvin, double pascals, double vapour) {
    double ratio = pascals / kelvin;
    double dry = 1.58123e-6 - 2.9331e-8 * celsius + 1.1043e-10 * celsius * celsius;
    double mixed = (5.707e-6 - 2.051e-8 * celsius) * vapour;
    double wet = (1.9898e-4 - 2.376e-6 * celsius) * vapour * vapour;
    return 1
        - ratio * (dry + mixed + wet)
        + ratio * ratio * (1.83e-11 - 0.765e-8 * vapour * vapour);
  }
}
