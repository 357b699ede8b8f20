package snick.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.Needs;
import snick.exchange.table.PackageTable;
import snick.exchange.write.DescriptorStandardTest;
import snick.exchange.write.ExportChoice;
import snick.exchange.write.Licence;
import snick.exchange.write.PackageExport;
import snick.json.Json;
import snick.store.StoreReader;
import snick.store.database.Watch;
import snick.store.record.CutSelection;

/**
 * The Frictionless implementation for JavaScript (npm package datapackage 1.1.10, with tableschema)
 * accepts a package, and refuses it where it should: descriptor, types, keys, foreign keys. It
 * knows version 1 of the standard; what version 2 renamed is in {@link DescriptorStandardTest}.
 * Skipped where Node or the npm registry is not to be had, but never where CI is set.
 */
class FrictionlessValidatorTest {
  private static final int PRESSES = 8;
  private static final Path VALIDATOR = Path.of("target", "validator").toAbsolutePath();

  @TempDir Path temporary;
  private Path folder;

  @BeforeAll
  static void install() throws IOException, InterruptedException {
    Files.createDirectories(VALIDATOR);
    for (String name : List.of("package.json", "package-lock.json", "validate.js")) {
      try (InputStream in =
          FrictionlessValidatorTest.class.getResourceAsStream("validator/" + name)) {
        Files.write(VALIDATOR.resolve(name), in.readAllBytes());
      }
    }
    if (!Files.isDirectory(VALIDATOR.resolve("node_modules"))) {
      require(
          run("npm", "ci", "--ignore-scripts", "--no-audit", "--no-fund"),
          "no npm, or no registry");
    }
    require(run("node", "--version"), "no node");
  }

  private static void require(boolean there, String what) {
    Needs.tool(there, what, "packages pass an independent validator");
  }

  private static boolean run(String... command) throws IOException, InterruptedException {
    try {
      Process process = process(command).start();
      boolean ended = process.waitFor(120, TimeUnit.SECONDS);
      process.destroyForcibly();
      return ended && process.exitValue() == 0;
    } catch (IOException e) {
      return false;
    }
  }

  private static ProcessBuilder process(String... command) {
    return new ProcessBuilder(command)
        .directory(VALIDATOR.toFile())
        .redirectError(ProcessBuilder.Redirect.DISCARD)
        .redirectOutput(VALIDATOR.resolve("out.json").toFile());
  }

  @BeforeEach
  void export() throws IOException {
    Path data = temporary.resolve("store");
    folder = temporary.resolve("package");
    Bench.fill(data, PRESSES);
    ExportChoice choice =
        ExportChoice.of(CutSelection.all()).under(new Licence("CC-BY-4.0")).from("a sharpener");
    try (StoreReader reader = StoreReader.open(data)) {
      new PackageExport(reader, choice, Watch.NONE).toFolder(folder);
    }
  }

  private Map<?, ?> verdict() throws IOException, InterruptedException {
    run("node", "validate.js", folder.resolve("datapackage.json").toString());
    return (Map<?, ?>)
        Json.read(Files.readString(VALIDATOR.resolve("out.json"), StandardCharsets.UTF_8));
  }

  private static List<String> errors(Map<?, ?> verdict) {
    List<String> errors = new ArrayList<>();
    ((List<?>) verdict.get("errors")).forEach(e -> errors.add(e.toString()));
    return errors;
  }

  @Test
  void aPackageIsAcceptedToItsLastCell() throws IOException, InterruptedException {
    Map<?, ?> verdict = verdict();
    assertThat(errors(verdict)).isEmpty();
    assertThat(verdict.get("valid")).isEqualTo(true);
    Map<?, ?> rows = (Map<?, ?>) verdict.get("rows");
    assertThat(((Number) rows.get("cuts")).intValue()).isEqualTo(Bench.cuts(PRESSES).size());
    int samples = Bench.cuts(PRESSES).stream().mapToInt(c -> c.trace().size()).sum();
    assertThat(((Number) rows.get("traces")).intValue()).isEqualTo(samples);
  }

  @Test
  void aWrongCellAndABrokenReferenceAreFound() throws IOException, InterruptedException {
    Forged.cell(folder, PackageTable.TRACES, 5, "counts", "many");
    assertThat(errors(verdict())).anyMatch(e -> e.startsWith("traces: "));
    Forged.cell(folder, PackageTable.TRACES, 5, "counts", "5");
    Forged.text(
        folder,
        "gaps.csv",
        t -> "cut,gap,cause,from_s,to_s,lost_samples\r\n77,1,lost_samples,0,1,1\r\n");
    assertThat(Collections.unmodifiableList(errors(verdict())))
        .anyMatch(e -> e.startsWith("gaps: "));
  }
}
