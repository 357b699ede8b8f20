package snick.cli.option;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.common.jimfs.Configuration;
import com.google.common.jimfs.Jimfs;
import java.io.IOException;
import java.nio.file.FileSystem;
import java.util.Map;
import org.junit.jupiter.api.Test;
import snick.port.OperatingSystem;

/** Where a person's files lie, on file systems of each kind in memory. */
class OwnFolderTest {
  private static String folder(
      OwnFolder folder,
      OperatingSystem system,
      Configuration files,
      String home,
      Map<String, String> variables)
      throws IOException {
    try (FileSystem memory = Jimfs.newFileSystem(files)) {
      return folder.path(system, variables, memory.getPath(home)).toString();
    }
  }

  private static String onWindows(OwnFolder folder, Map<String, String> variables)
      throws IOException {
    return folder(
        folder, OperatingSystem.WINDOWS, Configuration.windows(), "C:\\Users\\me", variables);
  }

  @Test
  void onWindowsInTheApplicationData() throws IOException {
    Map<String, String> usual =
        Map.of(
            "LOCALAPPDATA", "D:\\me\\Local",
            "APPDATA", "D:\\me\\Roaming");
    assertThat(onWindows(OwnFolder.DATA, usual)).isEqualTo("D:\\me\\Local\\snick");
    assertThat(onWindows(OwnFolder.CONFIGURATION, usual)).isEqualTo("D:\\me\\Roaming\\snick");
    assertThat(onWindows(OwnFolder.DATA, Map.of()))
        .isEqualTo("C:\\Users\\me\\AppData\\Local\\snick");
    assertThat(onWindows(OwnFolder.CONFIGURATION, Map.of("APPDATA", "not\\absolute")))
        .isEqualTo("C:\\Users\\me\\AppData\\Roaming\\snick");
  }

  @Test
  void onMacOsInTheApplicationSupport() throws IOException {
    assertThat(
            folder(
                OwnFolder.DATA,
                OperatingSystem.MAC,
                Configuration.osX(),
                "/Users/me",
                Map.of("LOCALAPPDATA", "/elsewhere")))
        .isEqualTo("/Users/me/Library/Application Support/snick");
  }

  @Test
  void byTheXdgSpecificationWhereItsVariablesAreSetAndOnLinux() throws IOException {
    assertThat(
            folder(
                OwnFolder.CONFIGURATION,
                OperatingSystem.MAC,
                Configuration.osX(),
                "/Users/me",
                Map.of("XDG_CONFIG_HOME", "/set")))
        .isEqualTo("/set/snick");
    assertThat(
            folder(
                OwnFolder.DATA, OperatingSystem.LINUX, Configuration.unix(), "/home/me", Map.of()))
        .isEqualTo("/home/me/.local/share/snick");
  }
}
