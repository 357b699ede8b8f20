package snick.exchange;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import snick.cut.Trace;
import snick.exchange.check.PackageCheck;
import snick.exchange.check.PackageReport;
import snick.exchange.json.RefusedPackage;
import snick.exchange.read.JournalIntake;
import snick.exchange.read.PackageContents;
import snick.exchange.read.PackageReading;
import snick.phrase.NotAccepted;
import snick.store.Intake;
import snick.store.Store;
import snick.store.database.Watch;
import snick.store.record.NewCut;
import snick.store.record.Origin;
import snick.store.trace.TraceSpool;

/**
 * Takes a package into a store: checked first, without holding up its writer, while the traces are
 * laid aside in the store's own form; then stored in one short transaction. Raw traces, stated
 * results and calibrations keep their origin.
 */
public final class PackageImport {
  private final Path path;
  private final String prefix;
  private final Watch watch;

  /**
   * What came of it.
   *
   * @param report what the check found
   * @param stored what was stored; empty if the check found differences and that was not accepted
   */
  public record Result(PackageReport report, Optional<Origin.Outcome> stored) {}

  /**
   * An import of a folder or zip file.
   *
   * @param prefix put before the names of sessions, blades and lots, with a slash; empty for none
   */
  public PackageImport(Path path, Optional<String> prefix, Watch watch) {
    this.path = path;
    this.prefix = prefix.map(p -> p + "/").orElse("");
    this.watch = watch;
  }

  /**
   * Checks the package and stores it.
   *
   * @param despiteDifferences whether to store it also where traces do not bear out what is stated
   * @throws RefusedPackage if it is not what it should be, or contradicts the store; then nothing
   *     was stored
   */
  public Result into(Store store, boolean despiteDifferences) throws IOException {
    try (PackageReading reading = PackageReading.open(path);
        TraceSpool traces = store.spool()) {
      PackageReport report =
          new PackageCheck(reading).run(watch, cut -> traces.add(cut.cut().cut().trace()));
      if (!report.holds() && !despiteDifferences) {
        return new Result(report, Optional.empty());
      }
      reading.forEachPhoto(store.photos()::keep);
      traces.rewind();
      return new Result(report, Optional.of(store(reading, traces, report.cuts(), store)));
    }
  }

  private Origin.Outcome store(PackageReading reading, TraceSpool traces, int cuts, Store store)
      throws IOException {
    Origin origin =
        new Origin(
            "package",
            reading.sha256(),
            clean(reading.name()),
            clean(reading.title()),
            reading.contents().credits());
    try {
      return store.takeIn(origin, intake -> takeIn(reading, traces, cuts, intake));
    } catch (UncheckedIOException e) {
      throw e.getCause();
    } catch (NotAccepted e) {
      throw new RefusedPackage(path + ": " + e.getMessage() + "; nothing was stored", e);
    }
  }

  private static String clean(String text) {
    String plain = text.replaceAll("\\p{Cntrl}", "?");
    return plain.length() <= 200 ? plain : plain.substring(0, 200);
  }

  private void takeIn(PackageReading reading, TraceSpool traces, int cuts, Intake intake) {
    PackageContents contents = reading.contents();
    contents.calibrations().forEach(c -> intake.calibration(c.calibration(), c.document()));
    contents.calibrations().forEach(c -> c.verifications().forEach(intake::verification));
    contents.responses().values().forEach(intake::response);
    List<Long> recordings =
        contents.recordings().stream()
            .map(r -> intake.recording(r.recording(), r.clock()))
            .toList();
    JournalIntake journal = new JournalIntake(contents.journal(), prefix, intake);
    try {
      reading.forEachCut(
          number -> next(traces),
          cut -> {
            watch.check("storing", cut.number(), cuts);
            NewCut stated = cut.cut().in(recordings.get((int) cut.cut().recordingId() - 1));
            journal.place(
                cut, intake.cut(stated, cut.detectorVersion(), cut.source(), cut.earlier()));
          });
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    journal.finish();
  }

  private static Trace next(TraceSpool traces) {
    try {
      return traces.next();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
