package snick.faults;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

/** See {@link DiskFaults}: the shipped jar on small disks, full or read-only. */
class DiskFullIT {
  @TempDir Path folder;

  /** What is done with a small disk. */
  @FunctionalInterface
  private interface Trial {
    void on(DiskFaults disk) throws Exception;
  }

  private static Together.Scene scene(Trial trial) {
    return folder -> {
      try (DiskFaults disk = new DiskFaults(folder)) {
        trial.on(disk);
      }
    };
  }

  @TestFactory
  List<DynamicTest> faultsOfTheDisk() {
    Together together = new Together(folder);
    together
        .play("stopped all the same", scene(DiskFaults::whoStopsItAllTheSameIsToldWhatIsLost))
        .play("a long time full", scene(DiskFaults::memoryIsBoundedAndWhatIsDroppedIsCounted))
        .play("full, then not", scene(DiskFaults::whatWaitsIsStoredWhenSpaceReturns))
        .play("capture", scene(DiskFaults::aCaptureKeepsWhatCameBefore))
        .play("start", scene(DiskFaults::aStartWithoutSpaceIsRefusedAndLeavesNothingInTheWay))
        .play("read-only store", scene(DiskFaults::aReadOnlyStoreRefusesAndStaysReadable));
    for (String command :
        List.of(
            "store backup NEW.db --data DATA",
            "export NEW.zip --data DATA",
            "plot cut 1 -o NEW.png --data DATA",
            "virtual-rig --write NEW.bin")) {
      together.play(command, scene(disk -> disk.noHalfFileIsLeft(command)));
    }
    return together.tests();
  }
}
