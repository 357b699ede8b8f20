package snick.force.fit;

import java.util.Arrays;

/**
 * What errors of the loads do to a curve. A mass hangs in every run, and masses of one set may all
 * err the same way (correlation coefficient 1: JCGM 100:2008, 5.2.2, note 1): repeats do not
 * average that away, and the scatter about the curve does not show it. So it is carried through the
 * fit.
 */
public final class CommonLoadError {
  private static final int GRID = 50;

  private CommonLoadError() {}

  /**
   * Largest effect on a load read off the curve, relative to it, over the loads above 0.
   *
   * @param fit curve of readings over loads
   * @param loads load of each point
   * @param uncertainties standard uncertainty of each load, same unit
   */
  public static double largestEffect(PolynomialFit fit, double[] loads, double[] uncertainties) {
    double[] shift = new double[loads.length];
    Arrays.setAll(shift, i -> fit.slope(loads[i]) * uncertainties[i]);
    PolynomialFit carried = PolynomialFit.of(loads, shift, fit.form());
    double lowest = Arrays.stream(loads).filter(load -> load > 0).min().orElse(0);
    double highest = Arrays.stream(loads).max().orElse(0);
    double worst = 0;
    for (int step = 0; step <= GRID; step++) {
      double load = lowest + (highest - lowest) * step / GRID;
      double effect = load > 0 ? carried.predict(load) / fit.slope(load) / load : 0;
      worst = Math.max(worst, Math.abs(effect));
    }
    return worst;
  }
}
