package snick.view.http;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.common.jimfs.Configuration;
import com.google.common.jimfs.Jimfs;
import java.io.IOException;
import java.nio.file.FileSystem;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import org.junit.jupiter.api.Test;

/** Where the secret is written, on file systems in memory. */
class PageTokenTest {
  private static void isWrittenTwice(Path file) throws IOException {
    PageToken.random().writeTo(file);
    PageToken second = PageToken.random();
    second.writeTo(file);
    assertThat(Files.readString(file)).isEqualTo(second.text() + "\n");
    try (var left = Files.list(file.getParent())) {
      assertThat(left).containsExactly(file);
    }
  }

  @Test
  void whereThereAreNoModesItIsWrittenWithout() throws IOException {
    try (FileSystem windows = Jimfs.newFileSystem(Configuration.windows())) {
      isWrittenTwice(windows.getPath("C:\\Users\\me\\snick\\token"));
    }
  }

  @Test
  void whereThereAreModesItIsTheOwnersAlone() throws IOException {
    Configuration modes =
        Configuration.osX().toBuilder().setAttributeViews("basic", "owner", "posix").build();
    try (FileSystem mac = Jimfs.newFileSystem(modes)) {
      Path file = mac.getPath("/Users/me/snick/token");
      isWrittenTwice(file);
      assertThat(Files.getPosixFilePermissions(file))
          .isEqualTo(PosixFilePermissions.fromString("rw-------"));
    }
  }
}
