package snick.faults;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

/**
 * {@code kill -9} at random instants: what was announced is stored, the store passes its check, the
 * next start needs no help. {@code -Dsnick.kills=500} says how many, {@code -Dsnick.seed=7} from
 * which seed.
 */
class KilledAtRandomIT {
  private static final int KILLS = Integer.getInteger("snick.kills", 24);
  private static final long SEED = Long.getLong("snick.seed", 1);

  @TempDir Path folder;

  /** Makes a victim that works in a folder of its own. */
  @FunctionalInterface
  interface Making {
    Victim in(Path folder) throws Exception;
  }

  @TestFactory
  Stream<DynamicTest> kills() {
    return Stream.of(
        killed("recording", KilledRecording::new),
        killed("calibration", f -> new KilledCommands(f).calibration()),
        killed("journal entry", f -> new KilledCommands(f).journalEntry()),
        killed("import", f -> new KilledCommands(f).imports()),
        killed("backup", f -> new KilledCommands(f).backup()),
        killed("migration", f -> new KilledCommands(f).migration()));
  }

  private DynamicTest killed(String name, Making making) {
    return DynamicTest.dynamicTest(
        name,
        () -> {
          Path own = Files.createDirectories(folder.resolve(name.replace(' ', '-')));
          SplittableRandom random = new SplittableRandom(SEED + name.hashCode());
          try (Victim victim = making.in(own)) {
            for (int round = 1; round <= KILLS / 6; round++) {
              victim.round(random);
            }
          }
        });
  }
}
