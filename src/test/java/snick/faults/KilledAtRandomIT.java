package snick.faults;

import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

/**
 * {@code kill -9} at random instants: what was announced is stored, the store passes its check, the
 * next start needs no help. {@code -Dsnick.kills=500} says how many, {@code -Dsnick.seed=7} from
 * which seed.
 */
class KilledAtRandomIT {
  private static final int KILLS = Integer.getInteger("snick.kills", 20);
  private static final int KINDS = 5;
  private static final long SEED = Long.getLong("snick.seed", 1);

  @TempDir Path folder;

  /** Makes a victim that works in a folder of its own. */
  @FunctionalInterface
  interface Making {
    Victim in(Path folder) throws Exception;
  }

  @TestFactory
  List<DynamicTest> kills() {
    return new Together(folder)
        .play("recording", killed(KilledRecording::new))
        .play("calibration", killed(f -> new KilledCommands(f).calibration()))
        .play("journal entry", killed(f -> new KilledCommands(f).journalEntry()))
        .play("import", killed(f -> new KilledCommands(f).imports()))
        .play("backup", killed(f -> new KilledCommands(f).backup()))
        .tests();
  }

  private static Together.Scene killed(Making making) {
    return folder -> {
      SplittableRandom random =
          new SplittableRandom(SEED + folder.getFileName().toString().hashCode());
      try (Victim victim = making.in(folder)) {
        for (int round = 1; round <= KILLS / KINDS; round++) {
          victim.round(random);
        }
      }
    };
  }
}
