package snick.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.journal.Blade;
import snick.journal.SessionLog;
import snick.journal.SetAside;
import snick.store.CutSelection;
import snick.store.Origin;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.Watch;

class RoundTripTest {
  private static final int PRESSES = 14;

  @TempDir Path temporary;
  private Path own;
  private Path theirs;

  @BeforeEach
  void stores() {
    own = temporary.resolve("own");
    theirs = temporary.resolve("theirs");
    Bench.fill(own, PRESSES);
    Bench.revise(own);
  }

  private static ExportChoice session() {
    return ExportChoice.of(CutSelection.all().inSession(Bench.SESSION));
  }

  private Path export(Path data, String name, ExportChoice choice) throws IOException {
    Path target = temporary.resolve(name);
    try (StoreReader reader = StoreReader.open(data)) {
      new PackageExport(reader, choice, Watch.NONE).toZip(target);
    }
    return target;
  }

  private static PackageImport.Result importInto(Path data, Path file, Optional<String> prefix)
      throws IOException {
    try (Store store = Store.open(data, Bench.CLOCK)) {
      return new PackageImport(file, prefix, Watch.NONE).into(store, false);
    }
  }

  private static PackageImport.Result importInto(Path data, Path file) throws IOException {
    return importInto(data, file, Optional.empty());
  }

  @Test
  void exportedImportedAndExportedAgainIsTheSameByteForByte() throws IOException {
    Path first = export(own, "first.zip", session());
    PackageImport.Result result = importInto(theirs, first);
    assertThat(result.report().differences()).isEmpty();
    assertThat(result.report().rederived()).isEqualTo(result.report().cuts());
    assertThat(result.stored()).contains(new Origin.Outcome(result.report().cuts(), 0, false));
    assertThat(export(theirs, "again.zip", session())).hasSameBinaryContentAs(first);
  }

  @Test
  void soItIsWithPersonalFieldsAndAsFolder() throws IOException {
    Path first = export(own, "first.zip", session().withPersonalFields());
    importInto(theirs, first);
    assertThat(export(theirs, "again.zip", session().withPersonalFields()))
        .hasSameBinaryContentAs(first);
  }

  @Test
  void theSamePackageTwiceChangesNothing() throws IOException {
    Path first = export(own, "first.zip", session());
    importInto(theirs, first);
    byte[] before = Files.readAllBytes(theirs.resolve("snick.db"));
    assertThat(importInto(theirs, first).stored()).contains(new Origin.Outcome(0, 0, true));
    assertThat(Files.readAllBytes(theirs.resolve("snick.db"))).isEqualTo(before);
  }

  @Test
  void whatWasCorrectedAndDerivedBeforeGoesAlong() throws IOException {
    importInto(theirs, export(own, "first.zip", session().withPersonalFields()));
    try (StoreReader here = StoreReader.open(own);
        StoreReader there = StoreReader.open(theirs)) {
      assertThat(there.journal().bladeHistory("=2+5 petty"))
          .extracting(e -> e.content().steel() + ", " + e.why() + ", " + e.recorded())
          .hasSize(2)
          .isEqualTo(
              here.journal().bladeHistory("=2+5 petty").stream()
                  .map(e -> e.content().steel() + ", " + e.why() + ", " + e.recorded())
                  .toList());
      assertThat(there.journal().sessionHistory(Bench.SESSION)).hasSize(2);
      SessionLog log = there.journal().log(Bench.SESSION).orElseThrow();
      assertThat(log.entries().all())
          .filteredOn(e -> e.corrects().isPresent())
          .extracting(e -> e.content().getClass().getSimpleName() + ": " + e.why())
          .containsExactlyInAnyOrder(
              "Withdrawn: it was the other blade",
              "SharpeningStep: counted again",
              "CutPlacement: it was after the strop");
      assertThat(log.inspections()).isEmpty();
      assertThat(there.summary(3).orElseThrow().place().orElseThrow().stage().name())
          .isEqualTo("stropped");
      assertThat(there.setAsideActs(4))
          .extracting(SetAside::countsAgain)
          .containsExactly(false, true);
      assertThat(there.summary(4).orElseThrow().setAside()).isEmpty();
      assertThat(there.results(1)).hasSize(2);
      assertThat(there.forces(1)).hasSize(3).hasSameSizeAs(here.forces(1));
      assertThat(there.forces(1))
          .extracting(f -> f.force())
          .isEqualTo(here.forces(1).stream().map(f -> f.force()).toList());
      assertThat(there.verificationsOf(Bench.calibration().id()))
          .isEqualTo(here.verificationsOf(Bench.calibration().id()))
          .hasSize(1);
      assertThat(there.verifications(Bench.RIG)).isEmpty();
    }
  }

  @Test
  void onesOwnPackageAddsNoCutToOnesOwnStore() throws IOException {
    Path first = export(own, "first.zip", session());
    PackageImport.Result result = importInto(own, first);
    assertThat(result.stored()).contains(new Origin.Outcome(0, result.report().cuts(), false));
    assertThat(export(own, "again.zip", session())).hasSameBinaryContentAs(first);
  }

  @Test
  void whatIsForeignKeepsItsOriginAndStaysApart() throws IOException {
    Path first = export(own, "first.zip", session());
    importInto(theirs, first);
    try (StoreReader reader = StoreReader.open(theirs)) {
      assertThat(reader.origins()).hasSize(1);
      assertThat(reader.originOfCut(1).orElseThrow().origin().name()).isEqualTo("first.zip");
      assertThat(reader.calibrations()).hasSize(2);
      assertThat(reader.currentCalibration(Bench.RIG)).isEmpty();
      assertThat(reader.verify(Watch.NONE).problems()).isEmpty();
    }
  }

  @Test
  void namesThatMeanOthersAreRefusedUnlessTheyGetAPrefix() throws IOException {
    Path first = export(own, "first.zip", session());
    try (Store store = Store.open(theirs, Bench.CLOCK)) {
      store.journal().add(Blade.labelled("=2+5 petty"));
    }
    assertThatThrownBy(() -> importInto(theirs, first))
        .isInstanceOf(RefusedPackage.class)
        .hasMessageContaining("another blade")
        .hasMessageContaining("--as");
    assertThat(importInto(theirs, first, Optional.of("friend")).stored()).isPresent();
    try (StoreReader reader = StoreReader.open(theirs)) {
      assertThat(reader.journal().session("friend/" + Bench.SESSION)).isPresent();
    }
  }

  @Test
  void aSessionThatStillRunsElsewhereTakesInNoLiveCut() throws IOException {
    try (Store store = Store.open(own, Bench.CLOCK)) {
      store.journal().add(Blade.labelled("other"));
    }
    Path first = export(own, "first.zip", session());
    importInto(theirs, first);
    try (StoreReader reader = StoreReader.open(theirs)) {
      assertThat(reader.journal().runningSession(Bench.RIG)).isEmpty();
    }
  }

  @Test
  void whatTheTracesDoNotBearOutIsToldAndNotStored() throws IOException {
    Path folder = temporary.resolve("claims");
    try (StoreReader reader = StoreReader.open(own)) {
      new PackageExport(reader, session(), Watch.NONE).toFolder(folder);
    }
    Forged.cell(folder, Table.CUTS, 1, "estimate_counts", "99999.5");
    PackageImport.Result result = importInto(theirs, folder);
    assertThat(result.stored()).isEmpty();
    assertThat(result.report().differences())
        .anyMatch(d -> d.startsWith("cut 1: estimate_counts is 99999.5, the trace gives 54"))
        .anyMatch(d -> d.startsWith("cut 1: force_n is "));
    try (StoreReader reader = StoreReader.open(theirs)) {
      assertThat(reader.count(CutSelection.all())).isZero();
    }
  }
}
