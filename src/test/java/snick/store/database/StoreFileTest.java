package snick.store.database;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.google.common.jimfs.Configuration;
import com.google.common.jimfs.Jimfs;
import java.io.IOException;
import java.nio.file.FileSystem;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The store's file on file systems of Windows and macOS in memory. */
class StoreFileTest {
  @Test
  void onWindowsItIsMadeWithoutModes() throws IOException {
    try (FileSystem windows = Jimfs.newFileSystem(Configuration.windows())) {
      Path directory = windows.getPath("C:\\Users\\me\\AppData\\Local\\snick");
      Path file = StoreFile.create(directory);
      assertThat(file.toString()).isEqualTo("C:\\Users\\me\\AppData\\Local\\snick\\snick.db");
      assertThat(StoreFile.create(directory)).isEqualTo(file);
      assertThat(StoreFile.existing(directory)).isEqualTo(file);
    }
  }

  @Test
  void onMacOsItIsTheOwnersAlone() throws IOException {
    Configuration modes =
        Configuration.osX().toBuilder().setAttributeViews("basic", "owner", "posix").build();
    try (FileSystem mac = Jimfs.newFileSystem(modes)) {
      Path directory = mac.getPath("/Users/me/Library/Application Support/snick");
      Path file = StoreFile.create(directory);
      assertThat(Files.getPosixFilePermissions(file))
          .isEqualTo(PosixFilePermissions.fromString("rw-------"));
      assertThat(Files.getPosixFilePermissions(directory))
          .isEqualTo(PosixFilePermissions.fromString("rwx------"));
    }
  }

  @Test
  void whatIsWrittenAnewIsTheOwnersAloneOrAsItWas() throws IOException {
    Configuration modes =
        Configuration.unix().toBuilder().setAttributeViews("basic", "owner", "posix").build();
    try (FileSystem system = Jimfs.newFileSystem(modes)) {
      Path folder = Files.createDirectory(system.getPath("/own"));
      Path file = Files.writeString(folder.resolve("file"), "before");
      Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r--r--"));
      StoreFile.rewrite(file, new byte[] {'1'});
      assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
          .isEqualTo("rw-r--r--");
      StoreFile.replace(file, new byte[] {'2'});
      assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
          .isEqualTo("rw-------");
      assertThat(file).hasContent("2");
      try (Stream<Path> left = Files.list(folder)) {
        assertThat(left).containsExactly(file);
      }
    }
  }

  @Test
  void onWindowsWhatIsWrittenAnewHasNoModes() throws IOException {
    try (FileSystem windows = Jimfs.newFileSystem(Configuration.windows())) {
      Path file = Files.createDirectory(windows.getPath("C:\\own")).resolve("settings");
      StoreFile.rewrite(file, new byte[] {'1'});
      StoreFile.rewrite(file, new byte[] {'2'});
      assertThat(file).hasContent("2");
    }
  }

  @Test
  void whatIsInTheWayIsNamedInTheSystemsOwnWay() throws IOException {
    try (FileSystem windows = Jimfs.newFileSystem(Configuration.windows())) {
      Path inTheWay = windows.getPath("C:\\rigs");
      Files.createFile(inTheWay);
      assertThatThrownBy(() -> StoreFile.create(inTheWay))
          .isInstanceOf(StoreException.class)
          .hasMessageContaining("C:\\rigs");
    }
  }

  /** Windows allows none of these in a name: {@code < > : " / \ | ? *}. */
  @Test
  void namesAreAllowedOnWindows() throws IOException {
    try (FileSystem windows = Jimfs.newFileSystem(Configuration.windows())) {
      Path file = windows.getPath("C:\\rigs\\snick.db");
      Path copy = StoreFile.beforeUpgrade(file, 1, Instant.parse("2026-01-02T03:04:05Z"));
      assertThat(copy.getFileName().toString()).doesNotContainPattern("[<>:\"/\\\\|?*]");
    }
  }
}
