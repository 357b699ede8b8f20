package snick.journal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import snick.journal.Inspection.Look;
import snick.journal.Session.Equipment;
import snick.journal.name.SlipOfName;
import snick.phrase.NotAccepted;

class SessionLogTest {
  private static final Instant NINE = Instant.parse("2026-05-04T09:00:00Z");
  private static final Instant TEN = Instant.parse("2026-05-04T10:00:00Z");
  private static final Instant ELEVEN = Instant.parse("2026-05-04T11:00:00Z");

  private static SessionLog opened() {
    return new SessionLog(
        new Session(
            "evening 1",
            "invented blade 7",
            new Equipment(Optional.of("lot A"), Optional.of("rig-1"), Optional.empty()),
            OptionalDouble.of(20.5),
            Optional.of("op-1"),
            NINE,
            Optional.empty()),
        List.of(),
        Ledger.empty(),
        List.of());
  }

  private static Inspection light(Instant at, Side side, Finding finding) {
    return new Inspection(
        at,
        "as found",
        new Look(Method.RAKING_LIGHT, OptionalDouble.empty()),
        side,
        Optional.empty(),
        finding,
        "");
  }

  private static CutPlacement cut(long cut, double placeMm) {
    return new CutPlacement(TEN, "as found", cut, OptionalDouble.of(placeMm));
  }

  @Test
  void stagesRunInOrder() {
    SessionLog log = opened().begin("as found").begin("after strop");

    assertThat(log.runningStage()).contains(new Stage(2, "after strop"));
    assertThat(log.stage("AS FOUND").order()).isEqualTo(1);
    assertThatThrownBy(() -> log.begin("After Strop"))
        .hasMessage("stage 'After Strop' is already in this session: choose another name");
    assertThatThrownBy(() -> log.stage("after stone"))
        .isInstanceOf(NotAccepted.class)
        .hasMessage(
            "stage 'after stone' is not in session evening 1: it has as found, after strop");
    assertThatThrownBy(() -> opened().stage("x")).hasMessageContaining("begin a stage first");
  }

  @Test
  void closedSessionTakesNothingInAndLosesNothing() {
    SessionLog open =
        opened().begin("as found").add(Entry.of(1, TEN, light(TEN, Side.LEFT, Finding.NONE)));
    SessionLog closed = open.close(ELEVEN);

    assertThatThrownBy(
            () -> closed.add(Entry.of(2, ELEVEN, light(ELEVEN, Side.RIGHT, Finding.NONE))))
        .isInstanceOf(NotAccepted.class)
        .hasMessageContaining("session evening 1 was closed at 2026-05-04T11:00:00Z")
        .hasMessageContaining("nothing was changed");
    assertThatThrownBy(() -> closed.begin("late")).hasMessageContaining("was closed at");
    assertThatThrownBy(() -> closed.close(ELEVEN)).hasMessageContaining("was closed at");
    assertThat(closed.inspections()).isEqualTo(open.inspections()).hasSize(1);
  }

  @Test
  void correctionsKeepTheOldEntryEvenAfterClosing() {
    Entry<StageEntry> wrong = Entry.of(1, TEN, light(TEN, Side.LEFT, Finding.NONE));
    Inspection right = light(TEN, Side.RIGHT, Finding.NONE);
    SessionLog log =
        opened()
            .begin("as found")
            .add(wrong)
            .close(ELEVEN)
            .add(Entry.correcting(wrong, 2, ELEVEN, "it was the other side", right));

    assertThat(log.inspections()).containsExactly(right);
    assertThat(log.entries().all()).hasSize(2).first().isEqualTo(wrong);
    assertThat(log.entries().correctionOf(1).orElseThrow().why())
        .isEqualTo("it was the other side");
    assertThatThrownBy(() -> log.add(Entry.correcting(wrong, 3, ELEVEN, "again", right)))
        .hasMessage("entry 1 was already corrected by entry 2: correct that one");
    assertThatThrownBy(() -> new Entry<>(9, ELEVEN, OptionalLong.of(1), " ", right))
        .hasMessageContaining("reason for the correction is empty");
  }

  @Test
  void correctionCannotSmuggleInALaterLook() {
    Entry<StageEntry> entry = Entry.of(1, TEN, light(TEN, Side.LEFT, Finding.NONE));
    SessionLog log = opened().begin("as found").add(entry).close(TEN);
    assertThatThrownBy(
            () ->
                log.add(
                    Entry.correcting(
                        entry, 2, ELEVEN, "new look", light(ELEVEN, Side.LEFT, Finding.NONE))))
        .hasMessageContaining("is after session evening 1 closed");
  }

  @Test
  void onlyItsLikeCorrectsAnEntryAndACutIsPlacedOnce() {
    Entry<StageEntry> placed = Entry.of(1, TEN, cut(11, 40));
    SessionLog log = opened().begin("as found").add(placed);
    assertThatThrownBy(
            () ->
                log.add(
                    Entry.correcting(
                        placed, 2, TEN, "mix-up", light(TEN, Side.LEFT, Finding.NONE))))
        .hasMessage("entry 1 is of another kind: only its like can correct it");
    assertThatThrownBy(() -> log.add(Entry.of(2, TEN, cut(11, 50))))
        .hasMessage("cut 11 is already in session evening 1: correct that entry");
    SessionLog moved = log.add(Entry.correcting(placed, 2, TEN, "misread", cut(11, 50)));
    assertThat(moved.placements()).containsExactly(cut(11, 50));
  }

  @Test
  void ledgerRefusesWhatItCannotTrace() {
    Entry<String> one = Entry.of(5, NINE, "a");
    assertThatThrownBy(() -> Ledger.of(List.of(one, Entry.of(5, NINE, "b"))))
        .hasMessage("entry 5 follows entry 5: ids must rise");
    assertThatThrownBy(
            () -> Ledger.of(List.of(one, new Entry<>(6, NINE, OptionalLong.of(2), "w", "b"))))
        .hasMessage("entry 6 corrects entry 2, which is not here");
  }

  @Test
  void cutsAreSetAsideNeverRemoved() {
    SessionLog log =
        opened()
            .begin("as found")
            .add(Entry.of(1, TEN, cut(11, 40)))
            .add(Entry.of(2, TEN, cut(12, 10)))
            .setAside(new SetAside(TEN, 11, "filament slipped"));
    Stage stage = log.stage("as found");

    assertThat(log.placements()).hasSize(2);
    assertThat(log.countingPlacements(stage)).containsExactly(cut(12, 10));
    assertThat(log.reasonsByCut()).containsEntry(11L, "filament slipped");
    assertThatThrownBy(() -> log.setAside(new SetAside(TEN, 99, "no such")))
        .hasMessage("cut 99 is not in session evening 1");
  }

  @Test
  void aWithdrawalNamesAnEntryAndAWithdrawnCutCanBePlacedAgain() {
    SessionLog log = opened().begin("as found").add(Entry.of(1, TEN, cut(11, 40)));
    Withdrawn withdrawn = new Withdrawn(TEN, "as found");

    assertThatThrownBy(() -> log.add(Entry.of(2, TEN, withdrawn)))
        .hasMessage("a withdrawal must name the entry that it withdraws");
    SessionLog without =
        log.add(Entry.correcting(Entry.of(1, TEN, cut(11, 40)), 2, TEN, "mistake", withdrawn));
    assertThat(without.placements()).isEmpty();
    assertThat(without.add(Entry.of(3, TEN, cut(11, 50))).placements()).hasSize(1);
  }

  @Test
  void aStageIsMeantByNameNumberOrBeginning() {
    SessionLog log = opened().begin("as found").begin("deburred").begin("2 strops");

    assertThat(log.stage("DEBURRED").order()).isEqualTo(2);
    assertThat(log.stage("2").order()).isEqualTo(2);
    assertThat(log.stage("2 s").order()).isEqualTo(3);
    assertThatThrownBy(() -> log.stage("deburrd"))
        .hasMessageContaining("it has as found, deburred, 2 strops; did you mean deburred?");
  }

  @Test
  void aNewStageThatIsNearlyAnEarlierOneIsAskedFor() {
    SessionLog log = opened().begin("as found").begin("deburred").begin("strop 1");

    assertThatThrownBy(() -> log.requireNoSlip("debured"))
        .isInstanceOfSatisfying(
            SlipOfName.class, slip -> assertThat(slip.near()).containsExactly("deburred"))
        .hasMessage("stage 'debured' is new; did you mean deburred?");
    log.requireNoSlip("strop 2");
    log.requireNoSlip("finished");
  }

  @Test
  void stagesAreRenamedAndMerged() {
    SessionLog log = opened().begin("as found").begin("debured").begin("deburred");

    assertThat(log.rename(log.stage("1"), "found").stages().get(0).name()).isEqualTo("found");
    assertThatThrownBy(() -> log.rename(log.stage("1"), "Deburred"))
        .hasMessageContaining("is already in this session");
    assertThat(log.merge(log.stage("debured"), log.stage("deburred")))
        .containsExactly(new Stage(1, "as found"), new Stage(2, "deburred"));
    assertThatThrownBy(() -> log.merge(log.stage("1"), log.stage("1")))
        .hasMessageContaining("into itself");
  }

  @Test
  void aClosedSessionTakesOnlyWhatCameLateForAReason() {
    SessionLog closed = opened().begin("as found").close(TEN);

    assertThatThrownBy(() -> closed.add(Entry.of(1, TEN, cut(11, 40))))
        .hasMessageContaining("snick session reopen");
    assertThat(closed.add(Entry.late(1, TEN, "it was this knife", cut(11, 40))).placements())
        .hasSize(1);
  }

  @Test
  void nextPlaceCountsSpotsOfCutsSetAside() {
    EdgeSpan span = new EdgeSpan(80, 10, 2);
    SessionLog log =
        opened()
            .begin("as found")
            .add(Entry.of(1, TEN, cut(11, 40)))
            .setAside(new SetAside(TEN, 11, "slip"))
            .begin("after strop");

    assertThat(log.nextPlace(log.stage("as found"), span))
        .isEqualTo(new NextPlace.At(new Place.FromHeel(10), 30));
    assertThat(log.nextPlace(log.stage("after strop"), span))
        .isEqualTo(new NextPlace.At(new Place.FromHeel(40), 30));
  }

  @Test
  void entriesBelongToTheSessionsTimeAndStages() {
    SessionLog log = opened().begin("as found");
    Instant early = NINE.minusSeconds(1);
    assertThatThrownBy(() -> log.add(Entry.of(1, NINE, light(early, Side.LEFT, Finding.NONE))))
        .hasMessageContaining("is before session evening 1 opened");
    assertThatThrownBy(
            () ->
                log.add(
                    Entry.of(1, NINE, new CutPlacement(NINE, "other", 1, OptionalDouble.empty()))))
        .hasMessageContaining("stage 'other' is not in session evening 1: it has as found");
    assertThatThrownBy(() -> log.close(early)).hasMessageContaining("before it opened");
  }
}
