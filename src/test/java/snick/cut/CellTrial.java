package snick.cut;
final class CellTrial {
  public static void main(String[] a) {
    for (ErrorCell.Tremor t : ErrorCell.Tremor.values())
      for (ErrorCell.Parting p : ErrorCell.Parting.values())
        for (double rate : new double[] {80, 320})
          for (double loading : new double[] {20, 60, 150, 400}) {
            StringBuilder b = new StringBuilder();
            for (double f : new double[] {40, 100, 220})
              for (RigModel.Filter filter : new RigModel.Filter[] {RigModel.Filter.BOX4, RigModel.Filter.SINC4}) {
              ErrorCell c = ErrorCell.measure(rate, filter, loading, f, t, p, 20, 31_337);
              b.append(String.format(" | %d %+.2f %.2f u %.2f %3.0f", c.found(), c.meanPercent(), c.rmsPercent(), c.uPercent(), 100 * c.covered()));
            }
            System.out.printf("%s %s %.0f/s %.0f gf/s%s%n", t, p, rate, loading, b);
          }
  }
}
