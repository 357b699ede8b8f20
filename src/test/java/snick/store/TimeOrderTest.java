package snick.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Cuts in the order of time, wherever a block of ids ends and in whatever order they came. */
class TimeOrderTest {
  private static final int BLOCK = 64;

  private record Stored(long id, Instant occurredAt) {}

  private static final Comparator<Stored> NEWEST_FIRST =
      Comparator.comparing(Stored::occurredAt).thenComparing(Stored::id).reversed();

  @TempDir Path directory;
  private final List<Stored> stored = new ArrayList<>();

  /** Times of a few seconds, so that some are the same. */
  private void append(int cuts) {
    Random random = new Random(cuts);
    try (Store store = Store.open(directory, Clock.systemUTC())) {
      long recording = store.startRecording(Examples.recording());
      for (int number = 1; number <= cuts; number++) {
        Instant at = Examples.NOON.plusSeconds(random.nextInt(cuts));
        NewCut cut = NewCut.of(recording, at, Examples.released(number));
        stored.add(new Stored(store.append(cut), at));
      }
    }
    stored.sort(NEWEST_FIRST);
  }

  private static List<Stored> seen(List<CutSummary> cuts) {
    return cuts.stream().map(cut -> new Stored(cut.id(), cut.occurredAt())).toList();
  }

  @Test
  void everyListIsInOrder() {
    for (int more : new int[] {1, BLOCK - 2, 1, 1, 2 * BLOCK, BLOCK / 2}) {
      append(more);
      try (StoreReader reader = StoreReader.open(directory)) {
        assertThat(seen(reader.latest(CutSelection.all(), 1000))).isEqualTo(stored);
        assertThat(seen(reader.latest(CutSelection.all(), 5)))
            .isEqualTo(stored.subList(0, Math.min(5, stored.size())));
        assertThat(reader.verify(Watch.NONE).problems()).isEmpty();
      }
    }
  }

  @Test
  void pagesFollowOneAnother() {
    append(3 * BLOCK + 10);
    List<Stored> paged = new ArrayList<>();
    try (StoreReader reader = StoreReader.open(directory)) {
      List<CutSummary> page = reader.latest(CutSelection.all(), 7);
      while (!page.isEmpty()) {
        paged.addAll(seen(page));
        page = reader.latestBefore(CutSelection.all(), page.get(page.size() - 1), 7);
      }
    }
    assertThat(paged).isEqualTo(stored);
  }

  @Test
  void aStretchOfTimeIsFoundAndCounted() {
    append(2 * BLOCK + 10);
    Instant from = Examples.NOON.plusSeconds(20);
    Instant before = from.plus(Duration.ofSeconds(60));
    List<Stored> within =
        stored.stream()
            .filter(s -> !s.occurredAt().isBefore(from) && s.occurredAt().isBefore(before))
            .toList();
    CutSelection stretch = CutSelection.all().from(from).before(before);
    try (StoreReader reader = StoreReader.open(directory)) {
      assertThat(within).hasSizeGreaterThan(10);
      assertThat(seen(reader.latest(stretch, 1000))).isEqualTo(within);
      assertThat(reader.count(stretch)).isEqualTo(within.size());
      assertThat(reader.count(CutSelection.all())).isEqualTo(stored.size());
      assertThat(seen(reader.latest(stretch.ofRecording(1), 1000))).isEqualTo(within);
      assertThat(reader.count(stretch.ofRecording(1))).isEqualTo(within.size());
      assertThat(reader.count(stretch.ofRecording(2))).isZero();
    }
  }

  /** The second attempt would have been the last of its block. */
  @Test
  void aRepeatedAttemptLeavesNothingBehind() {
    try (Store store = Store.open(directory, Clock.systemUTC());
        StoreReader reader = StoreReader.open(directory)) {
      long recording = store.startRecording(Examples.recording());
      for (int number = 1; number < BLOCK; number++) {
        store.append(NewCut.of(recording, Examples.NOON, Examples.severed(number)));
      }
      NewCut again = NewCut.of(recording, Examples.NOON, Examples.severed(BLOCK - 1));
      assertThat(store.append(again)).isEqualTo(BLOCK - 1);
      assertThat(reader.count(CutSelection.all())).isEqualTo(BLOCK - 1);
      assertThat(reader.verify(Watch.NONE).problems()).isEmpty();
      NewCut next = NewCut.of(recording, Examples.NOON, Examples.severed(BLOCK));
      assertThat(store.append(next)).isEqualTo(BLOCK);
      assertThat(reader.verify(Watch.NONE).problems()).isEmpty();
    }
  }

  @Test
  void twoWritersByTurnsGiveIdsWithoutGaps() {
    List<Long> ids = new ArrayList<>();
    try (Store one = Store.open(directory, Clock.systemUTC());
        Store other = Store.open(directory, Clock.systemUTC());
        StoreReader reader = StoreReader.open(directory)) {
      long first = one.startRecording(Examples.recording());
      long second = other.startRecording(Examples.recording());
      for (int number = 1; number <= BLOCK; number++) {
        ids.add(one.append(NewCut.of(first, Examples.NOON, Examples.released(number))));
        ids.add(other.append(NewCut.of(second, Examples.NOON, Examples.released(number))));
      }
      assertThat(reader.verify(Watch.NONE).problems()).isEmpty();
    }
    assertThat(ids).isSorted().doesNotHaveDuplicates().hasSize(2 * BLOCK).endsWith(2L * BLOCK);
  }

  /** As salvage leaves a store whose first cut was lost. */
  @Test
  void aNewCutDoesNotTakeTheIdOfALostOne() {
    append(BLOCK + 3);
    try (Database database = Database.writer(StoreFile.in(directory))) {
      database.execute("DELETE FROM cut_trace WHERE cut = 1");
      database.execute("DELETE FROM cut_time WHERE id = 1");
      database.execute("DELETE FROM cut WHERE id = 1");
    }
    stored.removeIf(cut -> cut.id() == 1);
    append(1);
    assertThat(stored).extracting(Stored::id).contains(BLOCK + 4L);
    try (StoreReader reader = StoreReader.open(directory)) {
      assertThat(seen(reader.latest(CutSelection.all(), 1000))).isEqualTo(stored);
      assertThat(reader.verify(Watch.NONE).problems()).isEmpty();
    }
  }

  @Test
  void anOrderThatDoesNotAgreeIsFound() {
    append(BLOCK);
    try (Database database = Database.writer(StoreFile.in(directory))) {
      database.execute("UPDATE cut SET occurred_at_utc_ns = 1 WHERE id = 3");
    }
    try (StoreReader reader = StoreReader.open(directory)) {
      assertThat(reader.verify(Watch.NONE).problems())
          .containsExactly("cut_time is not the order of cuts by time");
    }
  }
}
