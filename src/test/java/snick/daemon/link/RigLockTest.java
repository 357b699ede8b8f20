package snick.daemon.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RigLockTest {
  @TempDir Path folder;

  @Test
  void refusesASecondRecorderAndNamesTheFirst() throws Exception {
    try (RigLock first = RigLock.take(folder, "/dev/ttyACM0")) {
      assertThat(first).isNotNull();
      assertThatThrownBy(() -> RigLock.take(folder, "/dev/ttyACM0"))
          .isInstanceOf(RigInUseException.class)
          .hasMessageContaining("/dev/ttyACM0")
          .hasMessageContaining(Long.toString(ProcessHandle.current().pid()));
    }
  }

  @Test
  void canBeTakenAgainOnceGivenBack() throws Exception {
    RigLock.take(folder, "a").close();

    try (RigLock again = RigLock.take(folder, "a")) {
      assertThat(again).isNotNull();
    }
  }

  @Test
  void twoRigsDoNotDisturbEachOther() throws Exception {
    try (RigLock a = RigLock.take(folder, "/dev/ttyACM0");
        RigLock b = RigLock.take(folder, "/dev/ttyACM1")) {
      assertThat(a).isNotEqualTo(b);
    }
  }

  @Test
  void aHostileNameStaysInsideItsFolder() throws Exception {
    try (RigLock lock = RigLock.take(folder, "../../etc/passwd")) {
      assertThat(lock).isNotNull();
      assertThat(folder).isDirectoryContaining(f -> f.getFileName().toString().startsWith("rig-"));
    }
  }
}
