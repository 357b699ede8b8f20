package snick.cli.terminal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.google.common.jimfs.Configuration;
import com.google.common.jimfs.Jimfs;
import java.io.IOException;
import java.nio.file.FileSystem;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** New files on file systems of Windows and macOS in memory. */
class NewFileTest {
  @ParameterizedTest
  @CsvSource({"windows, C:\\made\\Report.html, C:\\MADE\\report.HTML", "osX, /made/a, /made/a"})
  void hasItsNameWhenItIsWholeAndIsNeverOverwritten(String kind, String name, String same)
      throws IOException {
    Configuration files = kind.equals("windows") ? Configuration.windows() : Configuration.osX();
    try (FileSystem memory = Jimfs.newFileSystem(files)) {
      Path file = memory.getPath(name);
      assertThatThrownBy(() -> NewFile.write(file, new byte[] {1}))
          .isInstanceOf(Refusal.class)
          .hasMessageContaining(file.getParent().toString());
      Files.createDirectories(file.getParent());
      NewFile.write(file, new byte[] {1});
      assertThatThrownBy(() -> NewFile.write(memory.getPath(same), new byte[] {2}))
          .isInstanceOf(Refusal.class)
          .hasMessageContaining("was left alone");
      assertThat(Files.readAllBytes(file)).containsExactly(1);
      try (var left = Files.list(file.getParent())) {
        assertThat(left).containsExactly(file);
      }
    }
  }
}
