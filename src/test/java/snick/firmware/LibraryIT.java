package snick.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The Arduino library: its drivers on simulated parts, its examples built for AVR. */
@Timeout(120)
@NeedsTools({Tool.GCC, Tool.GXX, Tool.MAKE, Tool.AVR_GCC, Tool.ARDUINO_CORE})
class LibraryIT {
  private static final Path LIBRARY = Path.of("src/firmware/library");

  @Test
  void driversDoOnSimulatedPartsWhatTheyMeanTo() throws Exception {
    assertThat(Make.REFERENCE.run("library-test")).contains("8 library tests passed");
  }

  /** Flash and static memory of a board of 32 KiB and 2 KiB. */
  @Test
  void everyExampleFitsTheSmallestBoard() throws Exception {
    String printed = Make.REFERENCE.run("sketches-avr");
    for (String example : examples()) {
      assertThat(printed).containsPattern(example + ": flash \\d{4,5}, static RAM 1?\\d{3} bytes");
    }
  }

  /** An example is a folder with a sketch of its name. */
  private static List<String> examples() throws IOException {
    try (Stream<Path> folders = Files.list(LIBRARY.resolve("examples"))) {
      List<Path> found = folders.toList();
      assertThat(found)
          .hasSizeGreaterThan(5)
          .allSatisfy(
              folder -> assertThat(folder.resolve(folder.getFileName() + ".ino")).isRegularFile());
      return found.stream().map(folder -> folder.getFileName().toString()).toList();
    }
  }

  /** Keys that the library specification of the Arduino tools requires, as remembered. */
  @Test
  void saysWhatToolsForSketchesWantToKnow() throws Exception {
    assertThat(Files.readAllLines(LIBRARY.resolve("library.properties")))
        .extracting(line -> line.split("=", 2)[0])
        .contains(
            "name",
            "version",
            "author",
            "maintainer",
            "sentence",
            "paragraph",
            "category",
            "url",
            "architectures");
    assertThat(LIBRARY.resolve("README.md")).isRegularFile();
    assertThat(LIBRARY.resolve("library.properties")).content().contains("url=README.md\n");
  }
}
