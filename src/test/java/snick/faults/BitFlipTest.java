package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cli.Ran;
import snick.cli.SessionStory;
import snick.cut.Trace;
import snick.journal.SessionLog;
import snick.store.StoreReader;
import snick.store.database.StoreException;
import snick.store.database.Watch;
import snick.store.record.CutSelection;

/**
 * One bit of a store turns, anywhere: whatever then reads otherwise, or is refused, is named by the
 * check. {@code -Dsnick.flips=300} says how often, {@code -Dsnick.seed=7} from which seed.
 */
class BitFlipTest {
  private static final int FLIPS = Integer.getInteger("snick.flips", 60);
  private static final long SEED = Long.getLong("snick.seed", 1);

  @TempDir Path folder;
  private byte[] sound;
  private List<String> answers;

  /** A session with everything that is noted in one. */
  @BeforeEach
  void write() throws IOException {
    Path data = folder.resolve("sound");
    SessionStory story = new SessionStory(data);
    told(story, "blade", "add", "paring knife", "--steel", "invented");
    told(story, "session", "start", "evening", "--blade", "paring knife");
    story.cuts(210, 220, 215, 230);
    told(story, "inspect", "l", "light", "none");
    told(story, "stage", "stropped");
    told(story, "step", "leather");
    story.cuts(110, 120, 115);
    told(story, "cuts", "set-aside", "2", "--reason", "slipped");
    told(story, "cuts", "set-aside", "3", "--reason", "slipped too");
    told(story, "session", "stop");
    answers = answers(data);
    assertThat(isNamed(data)).isFalse();
    assertThat(answers.toString()).contains("paring knife", "evening", "stropped", "slipped");
    sound = Files.readAllBytes(data.resolve("snick.db"));
  }

  private static void told(SessionStory story, String... words) {
    assertThat(story.run(words)).extracting(Ran::exit).as(String.join(" ", words)).isEqualTo(0);
  }

  @Test
  void whatReadsOtherwiseIsNamed() throws IOException {
    SplittableRandom random = new SplittableRandom(SEED);
    int changed = 0;
    for (int flip = 0; flip < FLIPS; flip++) {
      changed += namedIfItChanges(8 * place(random, flip % 2 == 0) + random.nextInt(8)) ? 1 : 0;
    }
    assertThat(changed).as("flips that mattered").isGreaterThan(FLIPS / 20);
  }

  /** A byte of the file, or one that is not zero: most of a small store is free space. */
  private int place(SplittableRandom random, boolean anywhere) {
    int place = random.nextInt(sound.length);
    while (!anywhere && sound[place] == 0) {
      place = random.nextInt(sound.length);
    }
    return place;
  }

  /** Whether the flip changed an answer, or one was refused. */
  private boolean namedIfItChanges(int bit) throws IOException {
    byte[] turned = Arrays.copyOf(sound, sound.length);
    turned[bit / 8] ^= (byte) (1 << bit % 8);
    Path data = Files.createDirectories(folder.resolve("turned"));
    for (String beside : List.of("-wal", "-shm")) {
      Files.deleteIfExists(data.resolve("snick.db" + beside));
    }
    Files.write(data.resolve("snick.db"), turned);
    if (readsTheSame(data)) {
      return false;
    }
    String where = "bit %d of byte %d".formatted(bit % 8, bit / 8);
    assertThat(isNamed(data)).as(where).isTrue();
    ran(data, "store", "check");
    ran(data, "cuts", "list");
    ran(data, "session", "show", "evening");
    return true;
  }

  private boolean readsTheSame(Path data) {
    try {
      return answers(data).equals(answers);
    } catch (StoreException refused) {
      return false;
    }
  }

  private static boolean isNamed(Path data) {
    try (StoreReader reader = StoreReader.open(data)) {
      return !reader.verify(Watch.NONE).isSound();
    } catch (StoreException refused) {
      return true;
    }
  }

  /** Whatever a command makes of it, it says so in words. */
  private static Ran ran(Path data, String... words) {
    Ran ran = new SessionStory(data).run(words);
    assertThat(ran.err()).doesNotContain("Exception", "\tat ");
    return ran;
  }

  /** All that a reader is told. */
  private static List<String> answers(Path data) {
    try (StoreReader reader = StoreReader.open(data)) {
      List<String> told = new ArrayList<>();
      told.add(reader.rigs().toString());
      told.add(reader.latest(CutSelection.all(), 100).toString());
      reader.forEachCut(
          CutSelection.all(),
          cut -> {
            told.add(cut.summary().toString());
            told.add(samples(cut.trace()));
            told.add("" + reader.results(cut.id()) + reader.forces(cut.id()));
            told.add("" + reader.setAsideActs(cut.id()));
            told.add("" + reader.recording(cut.summary().recordingId()));
          });
      told.add("" + reader.calibrations() + reader.origins());
      told.add("" + reader.journal().blades() + reader.journal().bladeHistory("paring knife"));
      told.add("" + reader.journal().sessionHistory("evening"));
      told.add(reader.journal().log("evening").map(BitFlipTest::told).orElse("no session"));
      return told;
    }
  }

  private static String told(SessionLog log) {
    return "" + log.session() + log.stages() + log.entries().all() + log.setAside();
  }

  private static String samples(Trace trace) {
    return IntStream.range(0, trace.size())
        .mapToObj(i -> trace.deviceNanos(i) + " " + trace.counts(i) + " " + trace.overrange(i))
        .toList()
        .toString();
  }
}
