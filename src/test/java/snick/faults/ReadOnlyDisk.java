package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import snick.store.OlderStore;
import snick.store.Store;

/** A disk that may only be read, wherever something is written. */
final class ReadOnlyDisk implements AutoCloseable {
  private final Path folder;
  private final SmallDisk disk;

  ReadOnlyDisk(Path folder) throws IOException {
    this.folder = folder;
    disk = SmallDisk.mountedIn(folder.resolve("disk"));
  }

  @Override
  public void close() {
    disk.close();
  }

  /** Whatever gives a new file is refused. */
  void noFileIsWritten(String command) throws Exception {
    Path data = folder.resolve("data");
    OlderStore.make(data, 3);
    disk.readOnly();
    String target = disk.root().resolve("new").toString();
    String[] words = command.replace("NEW", target).replace("DATA", "" + data).split(" ", 0);
    try (Running refused = Running.snick(folder, words)) {
      assertThat(refused.over()).as(refused.lines().toString()).isEqualTo(1);
      assertThat(String.join("\n", refused.lines()))
          .contains("Read-only file system")
          .contains(target);
    }
    assertThat(disk.files()).isEmpty();
  }

  /** Whatever writes into the store: nothing of it is stored, and the rest stays readable. */
  void aReadOnlyStoreRefusesAndStaysReadable() throws Exception {
    Path data = disk.root().resolve("data");
    OlderStore.make(data, 3);
    Store.open(data, Clock.systemUTC()).close();
    disk.readOnly();
    for (String command :
        List.of(
            "blade add invented",
            "calibrate line --rig 51ab --zero 0 --span 437 --span-gf 1 --u-span 1",
            "run /tmp/none --no-http")) {
      try (Running refused = Running.snick(folder, (command + " --data " + data).split(" ", 0))) {
        assertThat(refused.over()).as(command).isIn(1, 5);
        assertThat(refused.lines().toString())
            .contains("make the file and its directory writable")
            .doesNotContain("the store is");
      }
    }
    try (Running list = Running.snick(folder, "cuts", "list", "--json", "--data", "" + data)) {
      assertThat(list.over()).isZero();
      assertThat(list.lines()).hasSize(3);
    }
    disk.writable();
    Sound.demand(data, reader -> assertThat(reader.journal().blades()).isEmpty());
  }
}
