package snick.exchange.write;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.concurrent.Callable;
import snick.cut.Trace;
import snick.exchange.derive.TraceForces;
import snick.exchange.table.CsvFile;
import snick.exchange.table.PackageTable;

/**
 * One cut's rows of the table of traces, as bytes. Any thread.
 *
 * @param number the cut's number in the package
 * @param forces force of each reading
 */
record TraceRows(int number, Trace trace, TraceForces forces) implements Callable<byte[]> {
  /** About as many as a row takes. */
  private static final int ROW_BYTES = 52;

  @Override
  public byte[] call() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream(ROW_BYTES * trace.size());
    try (CsvFile rows = CsvFile.continued(out)) {
      write(rows);
    }
    return out.toByteArray();
  }

  private void write(CsvFile rows) {
    for (int i = 0; i < trace.size(); i++) {
      int counts = trace.counts(i);
      double newtons = forces.newtons(counts).orElse(Double.NaN);
      rows.row(
          PackageTable.TRACES.cells(
              new PackageTable.Sample(number, i, trace.deviceNanos(i), counts, newtons)));
    }
  }
}
