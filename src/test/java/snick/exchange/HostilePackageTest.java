package snick.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import snick.FolderCopy;
import snick.cut.Cut;
import snick.exchange.check.PackageCheck;
import snick.exchange.check.PackageReport;
import snick.exchange.json.RefusedPackage;
import snick.exchange.table.PackageTable;
import snick.exchange.write.ExportChoice;
import snick.exchange.write.PackageExport;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.database.Watch;
import snick.store.record.CutSelection;

/**
 * Every threat is refused with its cause, and nothing is left behind: zip slip, links, duplicate
 * and overlapping entries, bombs (OWASP Web Security Testing Guide, "Test Upload of Malicious
 * Files"; overlapping entries after Fifield, "A better zip bomb", 2019), deep or huge JSON, numbers
 * that are none, control characters.
 */
class HostilePackageTest {
  @TempDir static Path sound;
  @TempDir Path temporary;
  private Path own;
  private Path theirs;
  private Path folder;

  @BeforeAll
  static void packages() throws IOException {
    Path own = sound.resolve("own");
    Bench.fill(own, 3);
    Store.open(sound.resolve("theirs"), Bench.CLOCK).close();
    try (StoreReader reader = StoreReader.open(own)) {
      new PackageExport(
              reader,
              ExportChoice.of(CutSelection.all()).with(ExportChoice.Wish.PERSONAL),
              Watch.NONE)
          .toFolder(sound.resolve("package"));
    }
  }

  /** Each test has its own, to do to it what it likes. */
  @BeforeEach
  void copied() throws IOException {
    own = temporary.resolve("own");
    theirs = temporary.resolve("theirs");
    folder = temporary.resolve("package");
    FolderCopy.lay(sound, temporary);
  }

  private void refused(Path what, String... because) throws IOException {
    List<Path> before = everything();
    byte[] store = Files.readAllBytes(theirs.resolve("snick.db"));
    try (Store target = Store.open(theirs, Bench.CLOCK)) {
      assertThatThrownBy(
              () -> new PackageImport(what, Optional.empty(), Watch.NONE).into(target, true))
          .isInstanceOf(RefusedPackage.class)
          .hasMessageContainingAll(because);
    }
    try (StoreReader reader = StoreReader.open(theirs)) {
      assertThat(reader.count(CutSelection.all())).isZero();
      assertThat(reader.rigs()).isEmpty();
      assertThat(reader.calibrations()).isEmpty();
      assertThat(reader.journal().blades()).isEmpty();
      assertThat(reader.origins()).isEmpty();
    }
    assertThat(Files.readAllBytes(theirs.resolve("snick.db"))).isEqualTo(store);
    assertThat(everything()).isEqualTo(before);
  }

  private List<Path> everything() throws IOException {
    try (Stream<Path> all = Files.walk(temporary)) {
      return all.filter(p -> !p.startsWith(theirs)).sorted().toList();
    }
  }

  private void text(String file, UnaryOperator<String> change) throws IOException {
    Forged.text(folder, file, change);
  }

  private static byte[] zip(List<String> names, UnaryOperator<byte[]> content) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream out = new ZipOutputStream(bytes)) {
      for (String name : names) {
        out.putNextEntry(new ZipEntry(name));
        out.write(content.apply(name.getBytes(StandardCharsets.UTF_8)));
        out.closeEntry();
      }
    }
    return bytes.toByteArray();
  }

  private Path file(byte[] bytes) throws IOException {
    return Files.write(temporary.resolve("hostile.zip"), bytes);
  }

  @ParameterizedTest
  @CsvSource({
    "../../evil.txt",
    "/etc/cron.d/evil",
    "C:\\evil.txt",
    "..\\evil.txt",
    "folder/datapackage.json",
    "datapackage.json/../../x",
    "DATAPACKAGE.JSON"
  })
  void namesThatLeadElsewhereAreRefused(String name) throws IOException {
    refused(file(zip(List.of("datapackage.json", name), b -> b)), "is none of", "hostile.zip");
  }

  @Test
  void anEntryThatIsThereTwiceIsRefused() throws IOException {
    byte[] zip = zip(List.of("cuts.csv", "gaps.csv"), b -> b);
    refused(file(replaced(zip, "gaps.csv", "cuts.csv")), "there twice");
  }

  private static byte[] replaced(byte[] bytes, String from, String to) {
    String text = new String(bytes, StandardCharsets.ISO_8859_1).replace(from, to);
    return text.getBytes(StandardCharsets.ISO_8859_1);
  }

  @Test
  void anEntryWithTwoNamesIsRefused() throws IOException {
    byte[] zip = zip(List.of("rig.json"), b -> b);
    int directory = new String(zip, StandardCharsets.ISO_8859_1).lastIndexOf("rig.json");
    zip[directory + 7] = 'N';
    refused(file(zip), "is none of");
    zip[directory + 7] = 'n';
    zip[new String(zip, StandardCharsets.ISO_8859_1).indexOf("rig.json")] = 'R';
    refused(file(zip), "two names");
  }

  @Test
  void entriesLaidOverOneAnotherAreRefused() throws IOException {
    byte[] zip = zip(List.of("cuts.csv", "gaps.csv"), b -> b);
    int second = new String(zip, StandardCharsets.ISO_8859_1).lastIndexOf("PK\1\2");
    zip[second + 20] = 127;
    refused(file(zip), "lies over another");
  }

  @Test
  void linksAreRefused() throws IOException {
    byte[] zip = zip(List.of("cuts.csv"), b -> "/etc/passwd".getBytes(StandardCharsets.UTF_8));
    int entry = new String(zip, StandardCharsets.ISO_8859_1).indexOf("PK\1\2");
    zip[entry + 5] = 3;
    zip[entry + 41] = (byte) 0xA1;
    refused(file(zip), "link");
    Files.delete(folder.resolve("gaps.csv"));
    Files.createSymbolicLink(folder.resolve("gaps.csv"), Path.of("/etc/passwd"));
    refused(folder, "gaps.csv is a link");
  }

  private byte[] over4GiB() throws IOException {
    Path zip = temporary.resolve("own.zip");
    try (StoreReader reader = StoreReader.open(temporary.resolve("own"))) {
      new PackageExport(reader, ExportChoice.of(CutSelection.all()), Watch.NONE).toZip(zip);
    }
    return Zip64.of(Files.readAllBytes(zip));
  }

  @Test
  void aZipFileWrittenAsOneOfOver4GiBIsRead() throws IOException {
    assertThat(PackageCheck.of(file(over4GiB()), Watch.NONE).holds()).isTrue();
  }

  /** Marks, count, length and place in the end record (from its start) and its locator. */
  @ParameterizedTest
  @ValueSource(ints = {0, 32, 40, 48, 55, 56, 64, 71})
  void aForgedEndOfOver4GiBIsRefused(int place) throws IOException {
    byte[] zip = over4GiB();
    zip[zip.length - Zip64.END_BYTES + place] ^= (byte) 0x95;
    Path forged = file(zip);
    assertThatThrownBy(() -> PackageCheck.of(forged, Watch.NONE))
        .isInstanceOf(RefusedPackage.class);
  }

  @Test
  void aBombIsStoppedByBytesReallyRead() throws IOException {
    byte[] zeros = new byte[40 << 20];
    java.util.Arrays.fill(zeros, (byte) ' ');
    Path bomb = file(zip(List.of("datapackage.json"), b -> zeros));
    assertThat(Files.size(bomb)).isLessThan(100_000);
    refused(bomb, "unpacks to over 200 times");
  }

  @Test
  void aFileLongerThanStatedIsStoppedThere() throws IOException {
    Files.writeString(
        folder.resolve("traces.csv"),
        Files.readString(folder.resolve("traces.csv")) + "9,0,0,0,\r\n");
    refused(folder, "traces.csv", "longer than");
  }

  @Test
  void aByteThatWasChangedIsFound() throws IOException {
    Path readme = folder.resolve("README.md");
    Files.writeString(readme, Files.readString(readme).replace("edges", "Edges"));
    refused(folder, "README.md is not what datapackage.json states");
  }

  @Test
  void deepAndHugeJsonIsRefused() throws IOException {
    text("rig.json", t -> "[".repeat(5_000) + "]".repeat(5_000));
    refused(folder, "rig.json", "nesting depth");
    text("rig.json", t -> "[" + "[],".repeat(1_000_000) + "[]]");
    refused(folder, "rig.json", "Token count");
  }

  @Test
  void jsonWithTwoMeaningsIsRefused() throws IOException {
    text("rig.json", t -> t.replaceFirst("\\{", "{\"recordings\": [],"));
    refused(folder, "rig.json", "Duplicate");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "rig.json|\"gain\" : 128|\"gain\" : 1e999|not a whole number",
        "rig.json|\"gain\" : 128|\"gain\" : NaN|no JSON",
        "rig.json|\"decimals\" : 0|\"decimals\" : 99|99 decimals",
        "rig.json|-12.5|-1e999|not a finite number",
        "rig.json|2026-05-04T12:00:00.123456789Z|+1000000-01-01T00:00:00Z|1700 to 2250",
        "rig.json|sketch 1.2|a\\u001b[2Jb|control character",
        "rig.json|sketch 1.2|a\\ud800b|half a character",
        "journal.json|leather strop|\\udc00|half a character",
        "calibration.json|\"calibrations\"|\"without_force\" : [{\"why\" : \"x\", \"cuts\" : [[2, 1]]}], \"calibrations\"|no first and last cut",
        "calibration.json|\"calibrations\"|\"without_force\" : [{\"why\" : \"\\u001b[2J\", \"cuts\" : []}], \"calibrations\"|control character",
        "calibration.json|44587.3|-44587.3|does not rise",
        "journal.json|leather strop|\\u001b]0;x\\u0007|control character",
        "journal.json|\"stages\"|\"entries\" : [{\"kind\" : \"placement\", \"at\" : \"2026-05-04T12:00:00Z\", \"stage\" : \"stropped\", \"cut\" : 4294967297}], \"stages\"|at most 32 bits",
        "journal.json|edge_trailing|sideways|sideways",
        "journal.json|\"stage\" : \"stropped\"|\"stage\" : \"nowhere\"|is not in session",
        "datapackage.json|\"snick_format\" : 1|\"snick_format\" : 7|format 7 is not known",
        "datapackage.json|\"path\" : \"gaps.csv\"|\"path\" : \"../gaps.csv\"|is no file of a package",
        "datapackage.json|\"path\" : \"gaps.csv\"|\"path\" : \"cuts.csv\"|again"
      })
  void valuesThatCannotBeAreRefusedWithTheirPlace(
      String file, String from, String to, String because) throws IOException {
    if (file.equals("datapackage.json")) {
      Path path = folder.resolve(file);
      Files.writeString(path, Files.readString(path).replace(from, to));
    } else {
      text(file, t -> t.replace(from, to));
    }
    refused(folder, because);
  }

  @ParameterizedTest
  @CsvSource({
    "counts,NaN,no integer",
    "counts,99999999999,over 32 bits",
    "counts,1e5,no integer",
    "counts,=1+1,no integer",
    "counts,0x10,no integer",
    "t_s,NaN,no time",
    "t_s,1e400,no time",
    "t_s,-5,goes back",
    "t_s,0.0000000001,no time",
    "t_s,9999999999,no time",
    "force_n,-1e999,no number",
    "sample,7,'sample is 7, not 2'",
    "cut,2,'before.csv, row 2: began_sample is'"
  })
  void samplesThatCannotBeAreRefused(String column, String value, String because)
      throws IOException {
    Forged.cell(folder, PackageTable.TRACES, 3, column, value);
    refused(folder, because, ".csv, row ");
  }

  @ParameterizedTest
  @CsvSource({
    "outcome,exploded,outcome",
    "polarity,7,polarity 7",
    "samples,2000000000,traces.csv has",
    "recording,9,is not in the package",
    "calibration,2,is not in the package",
    "session,5,is not in the package",
    "stage,44,is not in session",
    "occurred_at,yesterday,no UTC time",
    "flags,=cmd(),no string",
    "flags,melted,not known",
    "u_n,-1,below 0",
    "u_counts,-1,standard uncertainty -1",
    "place_mm,-7,place along the edge",
    "cut,-1,cut is -1",
    "number,0,cut 0",
    "set_aside,maybe,no boolean"
  })
  void cutsThatCannotBeAreRefused(String column, String value, String because) throws IOException {
    Forged.cell(folder, PackageTable.CUTS, 1, column, value);
    refused(folder, because);
  }

  @Test
  void anotherVersionOfTheDetectorMayDifferALittleAndThisOneNotAtAll() throws IOException {
    double counts;
    try (StoreReader reader = StoreReader.open(own)) {
      counts = reader.cut(1).orElseThrow().cut().peak().orElseThrow().estimateCounts();
    }
    Forged.cell(
        folder, PackageTable.CUTS, 1, "estimate_counts", Double.toString(Math.nextUp(counts)));
    assertThat(ofEstimates())
        .containsExactly(
            "cut 1: estimate_counts is " + Math.nextUp(counts) + ", the trace gives " + counts);
    Forged.cell(folder, PackageTable.CUTS, 1, "detector_version", "3");
    Forged.cell(folder, PackageTable.CUTS, 1, "estimate_counts", Double.toString(1.04 * counts));
    assertThat(ofEstimates()).isEmpty();
    Forged.cell(folder, PackageTable.CUTS, 1, "estimate_counts", Double.toString(1.06 * counts));
    assertThat(ofEstimates().toString())
        .contains("by detector version 3, version " + Cut.DETECTOR_VERSION + " makes " + counts);
  }

  private List<String> ofEstimates() throws IOException {
    return PackageCheck.of(folder, Watch.NONE).differences().stream()
        .filter(difference -> difference.contains("estimate_counts"))
        .toList();
  }

  @Test
  void withoutWhatCameBeforeNothingIsBorneOut() throws IOException {
    Forged.text(folder, PackageTable.BEFORE.file(), text -> text.replaceAll("(?m)^1,.*\r\n", ""));
    assertThat(PackageCheck.of(folder, Watch.NONE).differences())
        .containsExactly("cut 1: what came before it is not there, so it cannot be derived again");
  }

  @ParameterizedTest
  @CsvSource({
    "began_sample,-1,from sample -1",
    "began_sample,99999,began_sample is 99999 of",
    "polarity,0,polarity 0",
    "level_counts,INF,level Infinity",
    "noise_counts,0,noise 0.0",
    "period_ns,-1,period -1.0",
    "zero_counts,,zero_counts is empty",
    "cut,7,it belongs to no cut"
  })
  void whatCannotHaveComeBeforeIsRefused(String column, String value, String because)
      throws IOException {
    Forged.cell(folder, PackageTable.BEFORE, 1, column, value == null ? "" : value);
    refused(folder, because);
  }

  @Test
  void tablesThatAreNoTablesAreRefused() throws IOException {
    text("gaps.csv", t -> "cut,gap\r\n");
    refused(folder, "gaps.csv, row 1: its header");
    text("gaps.csv", t -> "cut,gap,cause,from_s,to_s,lost_samples\r\n77,1,lost_samples,0,1,1\r\n");
    refused(folder, "belongs to no cut");
    text("gaps.csv", t -> "cut,gap,cause,from_s,to_s,lost_samples\r\n\"1,1");
    refused(folder, "gaps.csv");
    text("gaps.csv", t -> "cut,gap,cause,from_s,to_s,lost_samples\r\n" + "1".repeat(200_000));
    refused(folder, "gaps.csv");
  }

  @Test
  void countsBeyondTheConverterAreADifference() throws IOException {
    Forged.cell(folder, PackageTable.TRACES, 3, "counts", "2000000000");
    PackageReport report = PackageCheck.of(folder, Watch.NONE);
    assertThat(report.differences())
        .anyMatch(d -> d.contains("beyond a 24-bit converter"))
        .anyMatch(d -> d.contains("force_n is"));
  }

  @Test
  void aCutOfTheStoreWithAnotherTraceIsRefused() throws IOException {
    try (Store target = Store.open(theirs, Bench.CLOCK)) {
      assertThat(
              new PackageImport(folder, Optional.empty(), Watch.NONE).into(target, true).stored())
          .isPresent();
      Forged.cell(folder, PackageTable.TRACES, 3, "counts", "-800");
      assertThatThrownBy(
              () -> new PackageImport(folder, Optional.empty(), Watch.NONE).into(target, true))
          .isInstanceOf(RefusedPackage.class)
          .hasMessageContaining("another trace");
    }
  }

  @Test
  void tornZipFilesAreRefused() throws IOException {
    Path whole = temporary.resolve("whole.zip");
    try (StoreReader reader = StoreReader.open(own)) {
      new PackageExport(reader, ExportChoice.of(CutSelection.all()), Watch.NONE).toZip(whole);
    }
    byte[] bytes = Files.readAllBytes(whole);
    List<Integer> lengths = new ArrayList<>(List.of(0, 1, 21, 22, 100));
    for (int i = 1; i <= 10; i++) {
      lengths.add((int) ((long) bytes.length * i / 11));
    }
    for (int length : lengths) {
      refused(file(java.util.Arrays.copyOf(bytes, length)), "hostile.zip");
    }
  }
}
