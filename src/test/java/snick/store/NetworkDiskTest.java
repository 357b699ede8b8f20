package snick.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Names of file systems as Linux, macOS and Windows give them (from memory). */
class NetworkDiskTest {
  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(
      strings = {"nfs", "nfs4", "cifs", "smb3", "smbfs", "9p", "fuse.sshfs", "fuse.rclone"})
  void isWarnedOf(String type) {
    assertThat(NetworkDisk.warning(folder, type).orElseThrow())
        .contains(folder + " is on a network file system (" + type + ")", "snick store backup");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"ext4", "xfs", "btrfs", "overlay", "tmpfs", "apfs", "NTFS", "fuse.ntfs-3g"})
  void oneOfThisMachineIsNot(String type) {
    assertThat(NetworkDisk.warning(folder, type)).isEmpty();
  }

  @Test
  void aFolderThatIsNotThereIsNot() {
    assertThat(NetworkDisk.warning(folder.resolve("none"))).isEmpty();
  }
}
