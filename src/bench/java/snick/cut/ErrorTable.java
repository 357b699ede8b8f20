package snick.cut;

import java.util.Locale;

/**
 * Prints the errors of the detector on modelled cuts: sampling rate × filter × tremor × loading
 * rate × force. Arguments: cuts per cell (default 200), then the rates in Hz (default 10 80 320).
 */
public final class ErrorTable {
  private static final double[] LOADINGS = {20, 60, 150, 400};
  private static final double[] FORCES = {40, 100, 220};

  private ErrorTable() {}

  /** Prints the table. */
  public static void main(String[] args) {
    int cuts = args.length > 0 ? Integer.parseInt(args[0]) : 200;
    double[] rates = args.length > 1 ? new double[args.length - 1] : new double[] {10, 80, 320};
    for (int i = 1; i < args.length; i++) {
      rates[i - 1] = Double.parseDouble(args[i]);
    }
    System.out.println(
        "rate filter tremor    gf/s   gf  found  mean%   rms%     u%  in2u%  maxrms%  fast%");
    for (double rate : rates) {
      for (RigModel.Filter filter :
          new RigModel.Filter[] {RigModel.Filter.BOX4, RigModel.Filter.SINC4}) {
        for (ErrorCell.Tremor tremor : ErrorCell.Tremor.values()) {
          rows(rate, filter, tremor, cuts);
        }
      }
    }
  }

  private static void rows(double rate, RigModel.Filter filter, ErrorCell.Tremor tremor, int cuts) {
    for (double loading : LOADINGS) {
      for (double force : FORCES) {
        ErrorCell c = ErrorCell.measure(rate, filter, loading, force, tremor, cuts, 1);
        System.out.printf(
            Locale.ROOT,
            "%4.0f %-6s %-8s %5.0f %4.0f %6d %6.2f %6.2f %6.2f %6.1f %8.2f %6.0f%n",
            rate,
            filter,
            tremor,
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
  }
}
