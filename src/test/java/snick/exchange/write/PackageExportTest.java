package snick.exchange.write;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cut.Cut;
import snick.exchange.Bench;
import snick.exchange.table.Decimals;
import snick.exchange.table.DigestedFile;
import snick.exchange.table.PackageTable;
import snick.json.Json;
import snick.store.StoreReader;
import snick.store.database.Watch;
import snick.store.record.CutSelection;

class PackageExportTest {
  private static final int PRESSES = 12;

  @TempDir Path temporary;
  private Path data;

  @BeforeEach
  void store() {
    data = temporary.resolve("store");
    Bench.fill(data, PRESSES);
  }

  private Path export(String name, ExportChoice choice) throws IOException {
    Path target = temporary.resolve(name);
    try (StoreReader reader = StoreReader.open(data)) {
      PackageExport export = new PackageExport(reader, choice, Watch.NONE);
      if (name.endsWith(".zip")) {
        export.toZip(target);
      } else {
        export.toFolder(target);
      }
    }
    return target;
  }

  private static ExportChoice all() {
    return ExportChoice.of(CutSelection.all());
  }

  private static String text(Path file) throws IOException {
    return Files.readString(file, StandardCharsets.UTF_8);
  }

  @Test
  void everyFileIsThereWithItsDigest() throws IOException {
    Path folder = export("package", all().under(new Licence("CC-BY-4.0")));
    try (Stream<Path> files = Files.list(folder)) {
      assertThat(files.map(f -> f.getFileName().toString()))
          .containsExactlyInAnyOrder(
              "datapackage.json",
              "README.md",
              "cuts.csv",
              "traces.csv",
              "before.csv",
              "gaps.csv",
              "overrange.csv",
              "history.csv",
              "rig.json",
              "calibration.json",
              "journal.json");
    }
    Map<?, ?> descriptor = (Map<?, ?>) Json.read(text(folder.resolve("datapackage.json")));
    List<?> resources = (List<?>) descriptor.get("resources");
    assertThat(resources).hasSize(PackageFiles.DESCRIBED.size());
    for (Object resource : resources) {
      Map<?, ?> map = (Map<?, ?>) resource;
      byte[] bytes = Files.readAllBytes(folder.resolve((String) map.get("path")));
      assertThat(((Number) map.get("bytes")).longValue()).isEqualTo(bytes.length);
      var digest = DigestedFile.sha256();
      digest.update(bytes);
      assertThat(map.get("hash")).isEqualTo("sha256:" + DigestedFile.hex(digest));
    }
  }

  @Test
  void samplesAreTheStoredOnesInRfc4180Lines() throws IOException {
    Path folder = export("package", all());
    List<String> lines = List.of(text(folder.resolve("traces.csv")).split("\r\n", -1));
    assertThat(lines.get(0)).isEqualTo("cut,sample,t_s,counts,force_n");
    Cut first = Bench.cuts(PRESSES).get(0);
    for (int i = 0; i < first.trace().size(); i++) {
      String[] cells = lines.get(i + 1).split(",", -1);
      assertThat(Decimals.nanos(cells[2].toCharArray(), 0, cells[2].length()))
          .hasValue(first.trace().deviceNanos(i));
      assertThat(Integer.parseInt(cells[3])).isEqualTo(first.trace().counts(i));
      double newtons =
          Bench.calibration()
              .newtons(
                  first.polarity() * (first.trace().counts(i) - first.rest().zeroBeforeCounts()));
      assertThat(Double.parseDouble(cells[4])).isEqualTo(newtons);
    }
  }

  @Test
  void noCellOfATableCanBeAFormulaAndNegativeNumbersStayNumbers() throws IOException {
    Path folder = export("package", all());
    for (PackageTable<?> table : PackageTable.ALL) {
      assertThat(text(folder.resolve(table.file()))).doesNotContain("petty", "as found", "\"", "=");
    }
    assertThat(text(folder.resolve("traces.csv"))).contains(",-8").doesNotContain("'-");
  }

  @Test
  void personalFieldsStayOutUnlessAskedFor() throws IOException {
    Path without = export("without", all());
    Path with = export("with", all().with(ExportChoice.Wish.PERSONAL));
    List<String> personal =
        List.of(
            "somebody",
            "a gift",
            "at the window",
            "wiped on cloth",
            "slipped",
            "12.3456",
            "home-of",
            "\"me\"");
    StringBuilder everything = new StringBuilder();
    for (String file : PackageFiles.DESCRIBED) {
      assertThat(text(without.resolve(file))).as(file).doesNotContain(personal);
      everything.append(text(with.resolve(file)));
    }
    assertThat(everything.toString()).contains(personal);
  }

  @Test
  void theSameContentGivesTheSameBytes() throws IOException {
    assertThat(Files.readAllBytes(export("a.zip", all())))
        .isEqualTo(Files.readAllBytes(export("b.zip", all())));
  }

  @Test
  void aSelectionHasItsCutsAlone() throws IOException {
    Path one = export("one", all().only(List.of(3L)));
    assertThat(text(one.resolve("cuts.csv")).lines()).hasSize(2);
    Path session = export("session", ExportChoice.of(CutSelection.all().inSession(Bench.SESSION)));
    assertThat(text(session.resolve("cuts.csv")).lines().count())
        .isEqualTo(Bench.cuts(PRESSES).size() + 1L);
  }

  @Test
  void whatIsStoppedLeavesNothing() throws IOException {
    Path target = temporary.resolve("stopped.zip");
    try (StoreReader reader = StoreReader.open(data)) {
      PackageExport export = new PackageExport(reader, all(), (doing, done, total) -> done < 5);
      assertThatThrownBy(() -> export.toZip(target)).isInstanceOf(Watch.Stopped.class);
    }
    try (Stream<Path> left = Files.list(temporary)) {
      assertThat(left).containsExactly(data);
    }
  }

  @Test
  void whatIsThereIsLeftAlone() throws IOException {
    Path target = Files.writeString(temporary.resolve("mine.zip"), "mine");
    assertThatThrownBy(() -> export("mine.zip", all()))
        .isInstanceOf(FileAlreadyExistsException.class);
    assertThat(target).hasContent("mine");
  }
}
