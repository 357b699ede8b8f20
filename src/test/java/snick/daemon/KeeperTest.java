package snick.daemon;

import static org.assertj.core.api.Assertions.assertThat;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.Mockito.doCallRealMethod;
import static org.mockito.Mockito.doThrow;
import static org.mockito.Mockito.spy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cut.Cut;
import snick.live.NextSpot;
import snick.phrase.Phrase;
import snick.port.PortAddress;
import snick.quantity.SampleRate;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.database.StoreException;
import snick.store.database.StoreException.Trouble;
import snick.store.record.Recording;

/** What the only writer does while the store takes nothing, in time moved by hand. */
class KeeperTest {
  private final HandTime time = new HandTime();
  private final BlockingQueue<Work> queue = new ArrayBlockingQueue<>(64);
  private final List<String> said = new ArrayList<>();
  private final List<AnnouncedCut> announced = new ArrayList<>();
  private final List<Cut> cuts = new ArrayList<>();
  private final NextSpot nextSpot = new NextSpot();
  @TempDir private Path folder;
  private Path data;
  private Store store;
  private Keeper keeper;

  @BeforeEach
  void open() throws Exception {
    data = folder.resolve("data");
    store = spy(Store.open(data, time));
    keeper =
        new Keeper(
            1,
            store,
            recording -> Scale.none(List.of(Phrase.of("scale.none_given"))),
            new RigResponses(1, store, time),
            nextSpot,
            new Refuge(data, time),
            announced::add,
            new Surroundings(
                queue,
                time,
                time,
                new FaultLog(time),
                line -> said.add(time.seconds() + " s: " + line)));
    Pipeline pipeline = new Pipeline(Pipeline.Settings.defaults(), cuts::add);
    byte[] text = Files.readAllBytes(Path.of("demo-data", "as-found.txt"));
    pipeline.accept(text, text.length);
    pipeline.end();
    queue.put(new Work.StreamBegan(0, recording(), Optional.empty()));
  }

  @AfterEach
  void close() {
    store.close();
  }

  private Recording recording() {
    return new Recording(
        "text:rig",
        "",
        PortAddress.parse("demo-data/as-found.txt").text(),
        Recording.Form.TEXT,
        time.instant(),
        OptionalInt.empty(),
        Optional.of(new SampleRate(80)),
        0);
  }

  private void finish(int number) throws InterruptedException {
    for (int i = 0; i < number; i++) {
      queue.put(new Work.CutFinished(0, cuts.get(i), time.instant(), time.monotonicNanos()));
    }
  }

  private void keepAll() throws InterruptedException {
    queue.put(new Work.Finish());
    keeper.run();
  }

  private List<Long> stored() {
    try (StoreReader reader = StoreReader.open(data)) {
      return announced.stream().map(cut -> reader.cut(cut.id()).orElseThrow().id()).toList();
    }
  }

  @Test
  void whatIsAnnouncedIsStored() throws InterruptedException {
    finish(3);

    keepAll();

    assertThat(announced).extracting(AnnouncedCut::cut).isEqualTo(cuts.subList(0, 3));
    assertThat(stored()).containsExactly(1L, 2L, 3L);
    assertThat(keeper.unstored()).isZero();
  }

  @Test
  void aFullDiskIsTriedEverySecondAndSaidOnceAndNothingIsAnnouncedMeanwhile()
      throws InterruptedException {
    finish(2);
    doThrow(new StoreException(Trouble.FULL, Phrase.of("fault.said", "what", "the disk is full")))
        .when(store)
        .append(any());
    List<Integer> announcedMeanwhile = new ArrayList<>();
    time.at(29.5, () -> announcedMeanwhile.add(announced.size()));
    time.at(29.5, () -> announcedMeanwhile.add(keeper.unstored()));
    time.at(29.5, () -> doCallRealMethod().when(store).append(any()));

    keepAll();

    assertThat(announcedMeanwhile).containsExactly(0, 2);
    assertThat(said).hasSize(3);
    assertThat(said.get(0)).contains("no calibration");
    assertThat(said.get(1)).startsWith("0.0 s: NOT STORED").contains("the disk is full");
    assertThat(said.get(2)).isEqualTo("30.0 s: storing again; nothing was lost");
    assertThat(stored()).containsExactly(1L, 2L);
    assertThat(announced.get(0).latencyNanos()).isEqualTo(30_000_000_000L);
  }

  @Test
  void whatCannotBeStoredIsGivenUpWhenThePersonInsistsAndNeverAnnounced()
      throws InterruptedException {
    finish(3);
    doThrow(new StoreException(Trouble.FULL, Phrase.of("fault.said", "what", "the disk is full")))
        .when(store)
        .append(any());
    time.at(10, keeper::abandon);

    keepAll();

    assertThat(time.seconds()).isEqualTo(10);
    assertThat(announced).isEmpty();
    assertThat(keeper.storing()).isFalse();
    assertThat(said).noneMatch(line -> line.contains("storing again"));
  }

  @Test
  void cutsGoBesideAStoreThatIsGone() throws InterruptedException {
    finish(2);
    doThrow(
            new StoreException(
                Trouble.GONE, Phrase.of("fault.said", "what", "the store was moved")))
        .when(store)
        .append(any());

    keepAll();

    assertThat(keeper.displaced()).isTrue();
    assertThat(announced).isEmpty();
    assertThat(said).last().asString().contains("a finished event is kept as #2");
  }

  @Test
  void aPlaceOnTheEdgeIsTakenByTheNextCut() throws InterruptedException {
    nextSpot.set(OptionalDouble.of(40));
    finish(1);

    keepAll();

    assertThat(nextSpot.get()).isEmpty();
  }
}
