package snick.dist;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipInputStream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * What can be proved here of the systems that are not here: what the zip holds, and the demo as
 * Java runs it where {@code os.name} is another. No machine of theirs was at hand.
 */
@Timeout(120)
class OtherSystemsIT {
  private static final Path JAR = Path.of("target/snick.jar");
  private static final int OK = 0;

  @TempDir private Path folder;
  private static Path zip;

  @BeforeAll
  static void find() throws IOException {
    try (Stream<Path> made = Files.list(Path.of("target"))) {
      zip = made.filter(file -> file.toString().endsWith(".zip")).findFirst().orElseThrow();
    }
  }

  @Test
  void zipHasBothLaunchersAndEachSystemsLibraries() throws Exception {
    try (ZipFile files = new ZipFile(zip.toFile())) {
      List<String> names = files.stream().map(ZipEntry::getName).toList();
      for (String wanted :
          List.of(
              "bin/snick",
              "bin/snick.cmd",
              "lib/snick/snick.jar",
              "service/snick.plist",
              "service/snick-task.ps1",
              "INSTALL.txt",
              "share/doc/snick/README.md",
              "share/snick/library/library.properties")) {
        assertThat(names).filteredOn(name -> name.endsWith("/" + wanted)).hasSize(1);
      }
      assertThat(names).noneMatch(name -> name.endsWith(".so"));
      assertThat(inJar(files))
          .contains(
              "Windows/x86_64/jSerialComm.dll",
              "Windows/aarch64/jSerialComm.dll",
              "OSX/x86_64/libjSerialComm.jnilib",
              "OSX/aarch64/libjSerialComm.jnilib",
              "Linux/x86_64/libjSerialComm.so",
              "org/sqlite/native/Windows/x86_64/sqlitejdbc.dll",
              "org/sqlite/native/Mac/aarch64/libsqlitejdbc.dylib",
              "com/sun/jna/darwin-aarch64/libjnidispatch.jnilib",
              "com/sun/jna/win32-x86-64/jnidispatch.dll");
    }
  }

  private static Set<String> inJar(ZipFile files) throws IOException {
    ZipEntry jar =
        files.stream().filter(e -> e.getName().endsWith("/snick.jar")).findFirst().orElseThrow();
    Set<String> names = new HashSet<>();
    try (ZipInputStream entries = new ZipInputStream(files.getInputStream(jar))) {
      for (ZipEntry entry = entries.getNextEntry(); entry != null; entry = entries.getNextEntry()) {
        names.add(entry.getName());
      }
    }
    return names;
  }

  /** The command prompt takes labels only from files whose lines end with CR LF. */
  @Test
  void commandFileIsOneForTheCommandPrompt() throws Exception {
    String text = Files.readString(Path.of("src/dist/bin/snick.cmd"));
    assertThat(text.replace("\r\n", "")).doesNotContain("\n").doesNotContain("\r");
    List<String> labels = text.lines().filter(line -> line.startsWith(":")).toList();
    assertThat(labels).contains(":try", ":start").doesNotHaveDuplicates();
    assertThat(text.lines().filter(line -> line.startsWith("goto ")))
        .isNotEmpty()
        .allSatisfy(line -> assertThat(labels).contains(line.replace("goto ", ":")));
  }

  @Test
  void serviceFilesNameWhatIsThere() throws Exception {
    var list =
        DocumentBuilderFactory.newInstance()
            .newDocumentBuilder()
            .parse(Path.of("src/dist/service/snick.plist").toFile())
            .getElementsByTagName("array");
    assertThat(list.item(0).getTextContent().strip().replaceAll("\\s+", " "))
        .isEqualTo("/usr/local/bin/snick run --wait PORT");
    assertThat(Files.readString(Path.of("src/dist/service/snick-task.ps1")))
        .contains("C:\\snick\\bin\\snick.cmd run --wait COM3");
  }

  /** On a system without pseudo-terminals the demo's rig is behind TCP. */
  @Test
  void demoRunsWhereJavaSaysWindows() throws Exception {
    demoRuns("Windows 11");
  }

  /**
   * The calls for a pseudo-terminal cannot be had either: the library for macOS does not load here.
   */
  @Test
  void demoRunsWhereJavaSaysMacOs() throws Exception {
    demoRuns("Mac OS X");
  }

  private void demoRuns(String system) throws Exception {
    Path sqlite = Path.of("target/dist/lib/snick/native/x86_64").toAbsolutePath();
    List<String> command =
        new ArrayList<>(
            List.of(
                ProcessHandle.current().info().command().orElse("java"),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-Djava.io.tmpdir=" + folder,
                "-Dorg.sqlite.lib.path=" + sqlite,
                "-Dorg.sqlite.lib.name=libsqlitejdbc.so",
                "-cp",
                "target/test-classes:" + JAR,
                Elsewhere.class.getName()));
    command.addAll(List.of(system, "demo", "--speed", "100"));
    ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
    Map<String, String> environment = builder.environment();
    environment.keySet().removeIf(name -> name.startsWith("XDG_"));
    Process demo = builder.start();
    String printed = new String(demo.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(demo.waitFor(60, TimeUnit.SECONDS)).isTrue();
    assertThat(demo.exitValue()).as(printed).isEqualTo(OK);
    assertThat(printed.lines().collect(Collectors.joining(" ")))
        .contains("Stored in", "severed", "snick progress");
  }
}
