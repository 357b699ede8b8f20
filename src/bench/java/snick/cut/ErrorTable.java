package snick.cut;

import java.util.Locale;

/**
 * Prints the errors of the detector on modelled cuts: sampling rate × filter × tremor × parting ×
 * loading rate × force, and the mean of each block. Arguments: cuts per cell (default 200), seed
 * (default 20260), then the rates in Hz (default 10 80 320).
 */
public final class ErrorTable {
  private static final double[] LOADINGS = {20, 60, 150, 400};
  private static final double[] FORCES = {40, 100, 220};

  private ErrorTable() {}

  /** Prints the table. */
  public static void main(String[] args) {
    int cuts = args.length > 0 ? Integer.parseInt(args[0]) : 200;
    long seed = args.length > 1 ? Long.parseLong(args[1]) : 20_260;
    double[] rates = args.length > 2 ? new double[args.length - 2] : new double[] {10, 80, 320};
    for (int i = 2; i < args.length; i++) {
      rates[i - 2] = Double.parseDouble(args[i]);
    }
    System.out.println(
        "rate filter tremor   parting       gf/s   gf  found  mean%   rms%     u%  in2u%  maxrms%  fast%");
    for (double rate : rates) {
      for (RigModel.Filter filter :
          new RigModel.Filter[] {RigModel.Filter.BOX4, RigModel.Filter.SINC4}) {
        for (ErrorCell.Tremor tremor : ErrorCell.Tremor.values()) {
          for (ErrorCell.Parting parting : ErrorCell.Parting.values()) {
            if (tremor != ErrorCell.Tremor.NONE || parting == ErrorCell.Parting.AT_STRENGTH) {
              rows(rate, filter, tremor, parting, cuts, seed);
            }
          }
        }
      }
    }
  }

  private static void rows(
      double rate,
      RigModel.Filter filter,
      ErrorCell.Tremor tremor,
      ErrorCell.Parting parting,
      int cuts,
      long seed) {
    double covered = 0;
    double mean = 0;
    for (double loading : LOADINGS) {
      for (double force : FORCES) {
        ErrorCell c = ErrorCell.measure(rate, filter, loading, force, tremor, parting, cuts, seed);
        covered += 100 * c.covered() / (LOADINGS.length * FORCES.length);
        mean += c.meanPercent() / (LOADINGS.length * FORCES.length);
        System.out.printf(
            Locale.ROOT,
            "%4.0f %-6s %-8s %-11s %6.0f %4.0f %6d %6.2f %6.2f %6.2f %6.1f %8.2f %6.0f%n",
            rate,
            filter,
            tremor,
            parting,
            loading,
            force,
            c.found(),
            c.meanPercent(),
            c.rmsPercent(),
            c.uPercent(),
            100 * c.covered(),
            c.observedRmsPercent(),
            100 * c.tooFast());
      }
    }
    System.out.printf(
        Locale.ROOT,
        "%4.0f %-6s %-8s %-11s all: mean %.2f %%, in 2u %.1f %%%n",
        rate,
        filter,
        tremor,
        parting,
        mean,
        covered);
  }
}
