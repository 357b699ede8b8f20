package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.OptionalInt;
import java.util.concurrent.CopyOnWriteArrayList;
import snick.daemon.AnnouncedCut;
import snick.daemon.Pipeline;
import snick.daemon.Recorder;
import snick.daemon.Scale;
import snick.force.budget.Calibration;
import snick.port.PortAddress;
import snick.store.StoreReader;
import snick.store.record.CutSelection;

/**
 * Fuzz target: the whole recorder, from a file of bytes to the store. Whatever comes, it neither
 * fails nor meets a cut that the store does not take, and each announced cut is stored.
 */
public final class RecorderFuzz {
  private static final int STORE_LASTS = 200;
  private static final Instant NOON = Instant.parse("2026-05-04T12:00:00Z");
  private static final Clock CLOCK = Clock.fixed(NOON, ZoneOffset.UTC);
  private static final Scale SCALE = Scale.by(Calibration.countsPerGramForce(437.25, NOON));
  private static final Path FOLDER = FuzzFolder.make("recorder");
  private static int used;

  private RecorderFuzz() {}

  /** One input. The first byte says whether a hostile device speaks, or the bytes as they are. */
  public static void fuzzerTestOneInput(byte[] input) throws Exception {
    if (++used % STORE_LASTS == 0) {
      FuzzFolder.empty(FOLDER.resolve("data"));
    }
    FuzzInput from = new FuzzInput(input);
    byte[] bytes = from.u8() % 2 == 0 ? from.rest() : HostileDevice.sends(from.rest());
    Path file = Files.write(FOLDER.resolve("stream"), bytes);
    List<AnnouncedCut> announced = new CopyOnWriteArrayList<>();
    List<String> words = new CopyOnWriteArrayList<>();
    Recorder recorder =
        Recorder.start(
            settings(file),
            recording -> SCALE,
            new Recorder.Audience(announced::add, words::add),
            CLOCK);
    try (recorder) {
      recorder.awaitEnd();
    }
    assertThat(recorder.failed()).as("failed: " + words).isFalse();
    assertThat(words).noneMatch(word -> word.contains("NOT STORED"));
    try (StoreReader reader = StoreReader.open(FOLDER.resolve("data"))) {
      announced.forEach(cut -> assertThat(reader.cut(cut.id())).isPresent());
      assertThat(reader.count(CutSelection.all())).isGreaterThanOrEqualTo(announced.size());
    }
  }

  private static Recorder.Settings settings(Path file) {
    return new Recorder.Settings(
        List.of(new PortAddress.RecordedFile(file)),
        115_200,
        Pipeline.Settings.defaults(),
        FOLDER.resolve("data"),
        FOLDER.resolve("locks"),
        OptionalInt.empty(),
        "fuzz");
  }
}
