package snick.journal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import snick.journal.Inspection.Look;
import snick.journal.Session.Equipment;
import snick.phrase.NotAccepted;

class SessionEntriesTest {
  private static final Instant NINE = Instant.parse("2026-05-04T09:00:00Z");
  private static final Instant TEN = Instant.parse("2026-05-04T10:00:00Z");
  private final SessionEntries taken =
      new SessionEntries(log("evening 1").begin("as found").begin("after strop"));

  private static SessionLog log(String name) {
    return new SessionLog(session(name), List.of(), Ledger.empty(), List.of());
  }

  private static Session session(String name) {
    return new Session(
        name,
        "invented blade 7",
        new Equipment(Optional.empty(), Optional.empty(), Optional.empty()),
        OptionalDouble.empty(),
        Optional.empty(),
        NINE,
        Optional.empty());
  }

  private static Entry<StageEntry> placed(long id, long cut) {
    return Entry.of(id, TEN, new CutPlacement(TEN, "as found", cut, OptionalDouble.of(1)));
  }

  private static Entry<StageEntry> corrected(long id, long earlier, StageEntry content) {
    return new Entry<>(id, TEN, OptionalLong.of(earlier), "wrong cut", content);
  }

  @Test
  void theStageIsFoundWhateverItsCase() {
    StageEntry placement = new CutPlacement(TEN, "After Strop", 11, OptionalDouble.empty());

    assertThat(taken.take(Entry.of(1, TEN, placement))).isEqualTo(new Stage(2, "after strop"));
    StageEntry elsewhere = new CutPlacement(TEN, "after stone", 12, OptionalDouble.empty());
    assertThatThrownBy(() -> taken.take(Entry.of(2, TEN, elsewhere)))
        .isInstanceOf(NotAccepted.class)
        .hasMessageContaining("it has as found, after strop");
  }

  @Test
  void aCutHasOnePlaceAndCorrectingItFreesTheOther() {
    taken.take(placed(1, 11));
    assertThatThrownBy(() -> taken.take(placed(2, 11))).hasMessageContaining("already in session");

    taken.take(corrected(3, 1, placed(3, 12).content()));
    assertThat(taken.take(placed(4, 11)).order()).isEqualTo(1);
    assertThatThrownBy(() -> taken.take(placed(5, 12))).hasMessageContaining("already in session");
  }

  @Test
  void onlyItsLikeCorrectsAnEntryAndAWithdrawalNamesOne() {
    taken.take(placed(1, 11));
    StageEntry look =
        new Inspection(
            TEN,
            "as found",
            new Look(Method.RAKING_LIGHT, OptionalDouble.empty()),
            Side.BOTH,
            Optional.empty(),
            Finding.NONE,
            "");

    assertThatThrownBy(() -> taken.take(corrected(2, 1, look)))
        .hasMessageContaining("of another kind");
    assertThatThrownBy(() -> taken.take(Entry.of(2, TEN, new Withdrawn(TEN, "as found"))))
        .hasMessageContaining("must name the entry");
  }

  @Test
  void nothingIsBeforeTheSession() {
    Instant before = NINE.minusSeconds(1);
    StageEntry early = new CutPlacement(before, "as found", 11, OptionalDouble.empty());

    assertThatThrownBy(() -> taken.take(Entry.of(1, TEN, early)))
        .hasMessageContaining("before session evening 1 opened");
  }

  /** If each cost as much as there are, this would not end in time. */
  @Test
  @Timeout(60)
  void aMillionEntriesAreTakenIn() {
    for (int i = 1; i <= 1_000_000; i++) {
      taken.take(placed(i, i));
    }
    assertThatThrownBy(() -> taken.take(placed(1_000_001, 1)))
        .hasMessageContaining("already in session");
  }

  @Test
  void whatTheLogHoldsCounts() {
    SessionLog log = log("evening 2").begin("as found").add(placed(1, 11));

    assertThat(log.placements()).extracting(CutPlacement::cut).isEqualTo(List.of(11L));
    assertThatThrownBy(() -> new SessionEntries(log).take(placed(2, 11)))
        .hasMessageContaining("already in session");
  }
}
