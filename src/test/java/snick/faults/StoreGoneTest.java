package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.OptionalInt;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import snick.daemon.AnnouncedCut;
import snick.daemon.Pipeline;
import snick.daemon.Recorder;
import snick.daemon.Scale;
import snick.port.PortAddress;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.RigSettings;

/** A store that is taken away under a recorder: nothing is announced that is not where it says. */
class StoreGoneTest {
  private static final Script CUT =
      Script.of(new Action.Rest(3), Action.Cut.ofGramForce(100, 150), new Action.Rest(1));
  private static final double SPEED = 10;

  @TempDir Path folder;
  private final List<AnnouncedCut> announced = new CopyOnWriteArrayList<>();
  private final List<String> words = new CopyOnWriteArrayList<>();

  /** What somebody does to a store that is in use. */
  enum Act {
    DELETED {
      @Override
      void on(Path data) throws Exception {
        Files.delete(data.resolve("snick.db"));
      }
    },
    MOVED {
      @Override
      void on(Path data) throws Exception {
        Files.move(data, data.resolveSibling("elsewhere"));
      }
    },
    REPLACED {
      @Override
      void on(Path data) throws Exception {
        Files.move(data.resolve("snick.db"), data.resolve("old.db"));
        Files.copy(data.resolve("old.db"), data.resolve("snick.db"));
      }
    };

    abstract void on(Path data) throws Exception;
  }

  @ParameterizedTest
  @EnumSource
  void cutsGoToANewStoreBesideItAndTheFaultIsSaid(Act act) throws Exception {
    Path data = folder.resolve("data");
    Recorder recorder;
    try (ServedRig rig = rig();
        Recorder opened = recorder(rig.port(), data)) {
      recorder = opened;
      rig.perform(CUT).join();
      Instants.await("the first cut", () -> announced.size() == 1);
      assertThat(recorder.state().storing()).isTrue();
      act.on(data);
      Instants.await("the fault is seen without any cut", () -> !recorder.state().storing());
      assertThat(recorder.state().faults()).anyMatch(fault -> fault.kind().equals("store gone"));
      rig.perform(CUT).join();
      Instants.await("the second cut", () -> words.stream().anyMatch(w -> w.contains("kept as")));
    }
    assertThat(announced).as("nothing more was announced").hasSize(1);
    assertThat(recorder.failed()).isTrue();
    assertThat(words).noneMatch(word -> word.contains("lost"));
    assertThat(cutsIn(rescued())).isEqualTo(1);
  }

  private ServedRig rig() throws Exception {
    return new VirtualRig(RigSettings.USUAL, 5)
        .serve(
            folder.resolve("rig"),
            Pacer.of(System::nanoTime, SPEED),
            VirtualRig.WhenFull.DROP,
            truth -> {});
  }

  private Recorder recorder(String port, Path data) throws Exception {
    return Recorder.start(
        new Recorder.Settings(
            List.of(PortAddress.parse(port)),
            115_200,
            Pipeline.Settings.defaults(),
            data,
            folder,
            OptionalInt.empty(),
            "test"),
        recording -> Scale.none(List.of()),
        new Recorder.Audience(announced::add, words::add),
        Clock.systemUTC());
  }

  private Path rescued() throws Exception {
    try (Stream<Path> there = Files.list(folder)) {
      return there
          .filter(path -> path.getFileName().toString().startsWith("data-rescued-"))
          .findFirst()
          .orElseThrow();
    }
  }

  private static long cutsIn(Path store) {
    try (StoreReader reader = StoreReader.open(store)) {
      assertThat(reader.verify(snick.store.database.Watch.NONE).problems()).isEmpty();
      return reader.count(CutSelection.all());
    }
  }
}
