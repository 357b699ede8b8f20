package snick.exchange.check;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import snick.cut.Rederivation;
import snick.exchange.derive.CutCheck;
import snick.exchange.derive.InOrder;
import snick.exchange.derive.StatedCut;
import snick.exchange.json.RefusedPackage;
import snick.exchange.read.PackageReading;
import snick.store.database.Watch;
import snick.store.record.Credit;

/**
 * Checks a package: files and digests, tables against their schema, readings against the converter,
 * forces against the calibration, and the stated peak against what this program's detector finds in
 * the raw trace. One thread reads, all processors derive again; constant memory.
 */
public final class PackageCheck {
  private static final int MOST_DIFFERENCES = 100;

  private final PackageReading reading;
  private final List<String> differences = new ArrayList<>();
  private final Rederivation rederivation = new Rederivation();
  private long samples;
  private int again;
  private int withoutTrace;

  private record Finding(int cut, boolean traced, List<String> differences) {}

  public PackageCheck(PackageReading reading) {
    this.reading = reading;
  }

  /**
   * Checks the package in a folder or zip file.
   *
   * @throws RefusedPackage if it is not what it should be
   */
  public static PackageReport of(Path path, Watch watch) throws IOException {
    try (PackageReading reading = PackageReading.open(path)) {
      return new PackageCheck(reading).run(watch, cut -> {});
    }
  }

  /** Checks, and gives each cut with its trace once its tables were read. */
  public PackageReport run(Watch watch, PackageReading.CutConsumer eachCut) throws IOException {
    reading.forEachPhoto(photo -> {});
    try (InOrder<Finding> checks = new InOrder<>(this::note)) {
      int cuts =
          reading.forEachCut(
              watch,
              (cut, statedNewtons) -> {
                samples += statedNewtons.length;
                checks.give(statedNewtons.length, () -> check(cut, statedNewtons));
                eachCut.accept(cut);
              });
      checks.finish();
      Credit own = reading.contents().credits().get(0);
      return new PackageReport(
          reading.title(),
          own.licence(),
          own.contributors(),
          cuts,
          samples,
          again,
          withoutTrace,
          differences);
    }
  }

  private Finding check(StatedCut cut, double[] statedNewtons) {
    CutCheck check = new CutCheck(cut.cut().cut(), cut.detectorVersion(), cut.calibration());
    check.counts(
        reading.contents().recordings().get((int) cut.cut().recordingId() - 1).recording());
    check.sampleForces(statedNewtons);
    cut.cut().force().ifPresent(check::force);
    return new Finding(cut.number(), statedNewtons.length > 0, check.again(rederivation));
  }

  private void note(Finding finding) {
    if (finding.traced()) {
      again++;
    } else {
      withoutTrace++;
    }
    for (String difference : finding.differences()) {
      if (differences.size() < MOST_DIFFERENCES) {
        differences.add("cut " + finding.cut() + ": " + difference);
      }
    }
  }
}
