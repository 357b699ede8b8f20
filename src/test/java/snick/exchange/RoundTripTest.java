package snick.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.FolderCopy;
import snick.exchange.json.RefusedPackage;
import snick.exchange.table.PackageTable;
import snick.exchange.write.ExportChoice;
import snick.exchange.write.Licence;
import snick.exchange.write.PackageExport;
import snick.journal.Blade;
import snick.journal.Inspection;
import snick.journal.Photo;
import snick.journal.SessionLog;
import snick.journal.SetAside;
import snick.json.Json;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.care.Photos;
import snick.store.database.Watch;
import snick.store.record.CutSelection;
import snick.store.record.NewCut;
import snick.store.record.Origin;
import snick.store.record.Recording;

class RoundTripTest {
  private static final int PRESSES = 14;

  @TempDir static Path filled;
  @TempDir Path temporary;
  private Path own;
  private Path theirs;

  @BeforeAll
  static void fill() {
    Bench.fill(filled, PRESSES);
    Bench.revise(filled);
  }

  @BeforeEach
  void stores() throws IOException {
    own = temporary.resolve("own");
    theirs = temporary.resolve("theirs");
    FolderCopy.lay(filled, own);
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
    assertThat(result.report().again()).isEqualTo(result.report().cuts());
    assertThat(result.stored()).contains(new Origin.Outcome(result.report().cuts(), 0, false));
    assertThat(export(theirs, "again.zip", session())).hasSameBinaryContentAs(first);
  }

  @Test
  void soItIsWithPersonalFieldsAndAsFolder() throws IOException {
    Path first = export(own, "first.zip", session().with(ExportChoice.Wish.PERSONAL));
    importInto(theirs, first);
    assertThat(export(theirs, "again.zip", session().with(ExportChoice.Wish.PERSONAL)))
        .hasSameBinaryContentAs(first);
  }

  private Photo photographed() {
    byte[] jpeg = {(byte) 0xFF, (byte) 0xD8, (byte) 0xFF, 7};
    try (Store store = Store.open(own, Bench.CLOCK);
        StoreReader reader = StoreReader.open(own)) {
      Photo photo = store.photos().keep(jpeg);
      Inspection look =
          reader.journal().log(Bench.SESSION).orElseThrow().entries().all().stream()
              .filter(e -> e.content() instanceof Inspection)
              .map(e -> (Inspection) e.content())
              .findFirst()
              .orElseThrow();
      store.mending().reopen(Bench.SESSION, "a photo was found");
      store.journal().add(Bench.SESSION, look.with(Optional.of(photo)));
      store.journal().close(Bench.SESSION, Bench.CLOCK.instant());
      return photo;
    }
  }

  @Test
  void aPhotoGoesAlongOnlyIfAskedFor() throws IOException {
    Photo photo = photographed();
    try (ZipFile plain = new ZipFile(export(own, "plain.zip", session()).toFile())) {
      assertThat(plain.stream().map(ZipEntry::getName)).noneMatch(n -> n.startsWith("photos/"));
    }
    Path first = export(own, "first.zip", session().with(ExportChoice.Wish.PHOTOS));
    importInto(theirs, first);
    assertThat(Photos.in(theirs).read(photo)).isPresent();
    assertThat(export(theirs, "again.zip", session().with(ExportChoice.Wish.PHOTOS)))
        .hasSameBinaryContentAs(first);
  }

  @Test
  void aChangedPhotoDoesNotComeIn() throws IOException {
    Photo photo = photographed();
    Path folder = temporary.resolve("package");
    try (StoreReader reader = StoreReader.open(own)) {
      new PackageExport(reader, session().with(ExportChoice.Wish.PHOTOS), Watch.NONE)
          .toFolder(folder);
    }
    Path file = folder.resolve("photos").resolve(photo.name());
    Files.write(file, new byte[] {(byte) 0xFF, (byte) 0xD8, (byte) 0xFF, 8});
    assertThatThrownBy(() -> importInto(theirs, folder))
        .isInstanceOf(RefusedPackage.class)
        .hasMessageContaining("photos/" + photo.name());
    Files.delete(file);
    assertThatThrownBy(() -> importInto(theirs, folder)).isInstanceOf(RefusedPackage.class);
    assertThat(Photos.in(theirs).read(photo)).isEmpty();
  }

  private static Map<?, ?> descriptor(Path zip) throws IOException {
    try (FileSystem files = FileSystems.newFileSystem(zip)) {
      return (Map<?, ?>) Json.read(Files.readString(files.getPath("datapackage.json")));
    }
  }

  private static String column(Path zip, String name) throws IOException {
    try (FileSystem files = FileSystems.newFileSystem(zip)) {
      return Files.readString(files.getPath("cuts.csv"))
          .lines()
          .skip(1)
          .map(line -> line.split(",", -1)[PackageTable.CUTS.index(name)])
          .distinct()
          .collect(Collectors.joining("|"));
    }
  }

  @Test
  void licenceAndAuthorSurviveImportAndExport() throws IOException {
    ExportChoice given =
        session().titled("An evening").under(new Licence("CC-BY-4.0")).from("A. Sharpener");
    Path first = export(own, "first.zip", given);
    importInto(theirs, first);
    assertThat(export(theirs, "again.zip", session())).hasSameBinaryContentAs(first);
    try (StoreReader reader = StoreReader.open(theirs)) {
      assertThat(reader.origins().get(0).origin().credits())
          .singleElement()
          .satisfies(
              credit -> {
                assertThat(credit.title()).isEqualTo("An evening");
                assertThat(credit.licence()).contains("CC-BY-4.0");
                assertThat(credit.contributors()).containsExactly("A. Sharpener");
              });
    }
  }

  @Test
  void theWorkOfOthersStaysTheirsUnderTheirLicenceFromHandToHand() throws IOException {
    ExportChoice given = session().under(new Licence("CC-BY-4.0")).from("A. Sharpener");
    importInto(theirs, export(own, "first.zip", given));
    addOwnCut(theirs);
    ExportChoice all = ExportChoice.of(CutSelection.all());
    ExportChoice theirChoice = all.under(new Licence("CC0-1.0")).from("B. Sharpener");
    Path second = export(theirs, "second.zip", theirChoice);
    assertThat(column(second, "source")).isEqualTo("1|");
    assertThat(descriptor(second).get("licenses").toString())
        .contains("name=CC0-1.0", "name=CC-BY-4.0");
    assertThat(descriptor(second).get("contributors").toString())
        .contains("B. Sharpener")
        .doesNotContain("A. Sharpener");
    assertThat(descriptor(second).get("sources").toString())
        .contains("title=A. Sharpener", "name=CC-BY-4.0", "hash=sha256:");

    Path third = temporary.resolve("third");
    importInto(third, second);
    assertThat(export(third, "passed-on.zip", all)).hasSameBinaryContentAs(second);
    Path fourth = export(third, "fourth.zip", all.under(new Licence("ODbL-1.0")).from("C"));
    assertThat(column(fourth, "source")).isIn("1|2", "2|1");
    assertThat(descriptor(fourth).get("licenses").toString())
        .contains("CC0-1.0", "CC-BY-4.0")
        .doesNotContain("ODbL");
    assertThat(descriptor(fourth).get("sources").toString())
        .contains("title=A. Sharpener", "title=B. Sharpener");
  }

  @Test
  void whatCameWithoutLicenceGoesOutUnderNoneUnlessItsSenderAgreed() throws IOException {
    importInto(theirs, export(own, "first.zip", session().titled("Unasked")));
    addOwnCut(theirs);
    ExportChoice licensed =
        ExportChoice.of(CutSelection.all()).under(new Licence("CC0-1.0")).from("B");
    assertThatThrownBy(() -> export(theirs, "second.zip", licensed))
        .isInstanceOf(snick.phrase.NotAccepted.class)
        .hasMessageContaining("'Unasked'")
        .hasMessageContaining("--own")
        .hasMessageContaining("--sender-agreed");
    assertThat(temporary.resolve("second.zip")).doesNotExist();
    Path without = export(theirs, "without.zip", licensed.with(ExportChoice.Wish.OWN_ONLY));
    assertThat(column(without, "source")).isEmpty();
    assertThat(descriptor(without).get("sources")).isNull();
    Path agreed = export(theirs, "agreed.zip", licensed.with(ExportChoice.Wish.SENDERS_AGREED));
    assertThat(descriptor(agreed).get("sources").toString()).contains("name=CC0-1.0");
    Path unlicensed = export(theirs, "no-licence.zip", ExportChoice.of(CutSelection.all()));
    assertThat(descriptor(unlicensed).get("licenses")).isNull();
    assertThat(descriptor(unlicensed).get("sources")).isNotNull();
  }

  /** A cut of another rig, an hour later. */
  private static void addOwnCut(Path data) {
    try (Store store = Store.open(data, Bench.CLOCK)) {
      Recording like = Bench.recording();
      long recording =
          store.startRecording(
              new Recording(
                  "bench",
                  like.firmware(),
                  like.source(),
                  like.form(),
                  Bench.NOON.plusSeconds(3600),
                  like.gain(),
                  like.nominalRate(),
                  like.decimals()));
      store.append(NewCut.of(recording, Bench.NOON.plusSeconds(3700), Bench.cuts(1).get(0)));
    }
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
    importInto(theirs, export(own, "first.zip", session().with(ExportChoice.Wish.PERSONAL)));
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
    Forged.cell(folder, PackageTable.CUTS, 1, "estimate_counts", "99999.5");
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
