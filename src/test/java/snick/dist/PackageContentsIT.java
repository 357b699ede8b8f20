package snick.dist;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snick.Needs;

/** What a Debian package brings: nothing for other machines, and word of everything it brings. */
class PackageContentsIT {
  private static final Set<String> LIBRARIES =
      Set.of("libjSerialComm.so", "libsqlitejdbc.so", "libjnidispatch.so");

  /** Folders of these libraries in the jar, by Debian's name of the machine. */
  private static final Map<String, Set<String>> IN_JAR =
      Map.of(
          "amd64",
              Set.of("Linux/x86_64", "org/sqlite/native/Linux/x86_64", "com/sun/jna/linux-x86-64"),
          "arm64",
              Set.of(
                  "Linux/armv8_64", "org/sqlite/native/Linux/aarch64", "com/sun/jna/linux-aarch64"),
          "armhf",
              Set.of("Linux/armv7hf", "org/sqlite/native/Linux/armv7", "com/sun/jna/linux-arm"));

  @TempDir Path folder;

  private Path unpacked(String architecture) throws Exception {
    Needs.machine(
        Files.exists(Path.of("/usr/bin/dpkg-deb")),
        "not Debian or its like",
        "what the Debian packages hold");
    String file = DebianPackage.of(architecture).toString();
    Path root = folder.resolve(architecture);
    Program.run(List.of("dpkg-deb", "--extract", file, root.toString())).well();
    assertThat(Program.run(List.of("dpkg-deb", "--field", file, "Architecture")).well().out())
        .isEqualTo(architecture + "\n");
    return root.resolve("usr");
  }

  @ParameterizedTest
  @ValueSource(strings = {"amd64", "arm64", "armhf"})
  void onlyLibrariesOfItsOwnMachine(String architecture) throws Exception {
    Path own = unpacked(architecture).resolve("lib/snick");
    assertThat(names(own.resolve("native")))
        .containsExactly(DebianPackage.MACHINES.get(architecture));
    assertThat(names(own.resolve("native/" + DebianPackage.MACHINES.get(architecture))))
        .isEqualTo(LIBRARIES);
    assertThat(foldersOfLibraries(own.resolve("snick.jar"))).isEqualTo(IN_JAR.get(architecture));
  }

  private static Set<String> names(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(file -> file.getFileName().toString()).collect(Collectors.toSet());
    }
  }

  private static Set<String> foldersOfLibraries(Path jar) throws IOException {
    try (ZipFile zip = new ZipFile(jar.toFile())) {
      return zip.stream()
          .map(ZipEntry::getName)
          .filter(name -> name.matches(".*\\.(so|dll|dylib|jnilib|a)"))
          .map(name -> name.substring(0, name.lastIndexOf('/')))
          .collect(Collectors.toCollection(TreeSet::new));
    }
  }

  /**
   * No file of the jar bears the time at which the package was made. The package's jar tells times
   * as instants, in UTC by the build; the whole one tells local times of no zone.
   */
  @ParameterizedTest
  @ValueSource(strings = {"amd64", "arm64", "armhf"})
  void theTimesInTheJarAreThoseOfTheWholeOne(String architecture) throws Exception {
    Path own = unpacked(architecture).resolve("lib/snick/snick.jar");
    assertThat(times(Path.of("target/snick.jar"), ZipEntry::getTimeLocal))
        .containsAllEntriesOf(times(own, PackageContentsIT::inUtc));
    assertThat(times(own, PackageContentsIT::inUtc)).hasSizeGreaterThan(1000);
  }

  private static LocalDateTime inUtc(ZipEntry entry) {
    return LocalDateTime.ofInstant(entry.getLastModifiedTime().toInstant(), ZoneOffset.UTC);
  }

  private static Map<String, LocalDateTime> times(Path jar, Function<ZipEntry, LocalDateTime> time)
      throws IOException {
    try (ZipFile zip = new ZipFile(jar.toFile())) {
      return zip.stream().collect(Collectors.toMap(ZipEntry::getName, time));
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"amd64", "arm64", "armhf"})
  @SuppressWarnings("unchecked") // the form of a bill of materials is known
  void aBillOfMaterialsAndEveryLicence(String architecture) throws Exception {
    Path documents = unpacked(architecture).resolve("share/doc/snick");
    Map<String, Object> bill =
        JSON.std.mapFrom(Files.readString(documents.resolve("snick.cdx.json")));
    assertThat(bill).containsEntry("bomFormat", "CycloneDX");
    String licences = Files.readString(documents.resolve("THIRD-PARTY.txt"));
    List<Map<String, Object>> components = (List<Map<String, Object>>) bill.get("components");
    assertThat(components).extracting(c -> c.get("name")).contains("sqlite-jdbc", "jna", "picocli");
    for (Map<String, Object> component : components) {
      assertThat(licences).contains(component.get("name") + ":" + component.get("version"));
      assertThat((List<?>) component.get("licenses")).as("" + component).isNotEmpty();
    }
  }
}
