package snick.faults;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

/**
 * See {@link DiskFaults} and {@link ReadOnlyDisk}: the shipped jar on small disks, full or
 * read-only, and where its files may not grow, which can be tried everywhere.
 */
class DiskFullIT {
  private static final List<String> NEW_FILES =
      List.of(
          "store backup NEW.db --data DATA",
          "export NEW.zip --data DATA",
          "export NEW --parquet --contributor ann --data DATA",
          "plot cut 1 -o NEW.png --data DATA",
          "virtual-rig --write NEW.bin");

  @TempDir static Path filled;
  @TempDir Path folder;
  private static FilledStores stores;

  @BeforeAll
  static void fill() throws Exception {
    stores = FilledStores.in(filled);
  }

  /** Makes room in a folder. */
  @FunctionalInterface
  private interface Builder {
    Room in(Path folder) throws Exception;
  }

  /** What is done where there is no room. */
  @FunctionalInterface
  private interface Trial {
    void on(DiskFaults faults) throws Exception;
  }

  /** What is done on a disk that is read only. */
  @FunctionalInterface
  private interface ReadOnlyTrial {
    void on(ReadOnlyDisk disk) throws Exception;
  }

  private static Together.Scene scene(Builder builder, Trial trial) {
    return folder -> {
      try (Room room = builder.in(folder.resolve("disk"))) {
        trial.on(new DiskFaults(folder, room));
      }
    };
  }

  private static Together.Scene readOnly(ReadOnlyTrial trial) {
    return folder -> {
      try (ReadOnlyDisk disk = new ReadOnlyDisk(folder)) {
        trial.on(disk);
      }
    };
  }

  @TestFactory
  List<DynamicTest> aFullDisk() {
    return faults(SmallDisk::mountedIn);
  }

  @TestFactory
  List<DynamicTest> filesThatMayNotGrow() {
    return faults(SizeLimit::of);
  }

  private List<DynamicTest> faults(Builder room) {
    Together together = new Together(folder);
    together
        .play("stopped", scene(room, DiskFaults::whoStopsItAllTheSameIsToldWhatIsLost))
        .play("a long time", scene(room, DiskFaults::memoryIsBoundedAndWhatIsDroppedIsCounted))
        .play("for a while", scene(room, DiskFaults::whatWaitsIsStoredWhenSpaceReturns))
        .play("capture", scene(room, DiskFaults::aCaptureKeepsWhatCameBefore))
        .play("start", scene(room, DiskFaults::aStartWithoutRoomIsRefusedAndLeavesNothingInTheWay));
    for (String command : NEW_FILES) {
      together.play(command, scene(room, faults -> faults.noHalfFileIsLeft(command, stores)));
    }
    return together.tests();
  }

  @TestFactory
  List<DynamicTest> aReadOnlyDisk() {
    Together together = new Together(folder);
    together.play("store", readOnly(ReadOnlyDisk::aReadOnlyStoreRefusesAndStaysReadable));
    for (String command : NEW_FILES) {
      together.play(command, readOnly(disk -> disk.noFileIsWritten(command)));
    }
    return together.tests();
  }
}
