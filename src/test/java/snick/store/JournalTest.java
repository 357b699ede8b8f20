package snick.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.journal.Blade;
import snick.journal.CutPlacement;
import snick.journal.EdgeDirection;
import snick.journal.Entry;
import snick.journal.FilamentLot;
import snick.journal.Finding;
import snick.journal.Inspection;
import snick.journal.Inspection.Look;
import snick.journal.LotFigure;
import snick.journal.Method;
import snick.journal.Place;
import snick.journal.Pressure;
import snick.journal.Session;
import snick.journal.Session.Equipment;
import snick.journal.SessionLog;
import snick.journal.SetAside;
import snick.journal.SharpeningStep;
import snick.journal.SharpeningStep.Grain;
import snick.journal.Side;
import snick.journal.Stage;
import snick.journal.StageEntry;
import snick.journal.Withdrawn;
import snick.phrase.NotAccepted;
import snick.store.record.CutPlace;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.store.record.NewCut;

class JournalTest {
  private static final Instant OPENED = Examples.NOON;
  private static final Instant LATER = OPENED.plusSeconds(60);
  private static final String NAME = "Monday";
  private static final String RIG = Examples.recording().deviceId();

  @TempDir Path directory;
  private Store store;
  private StoreReader reader;
  private JournalWriter journal;

  @BeforeEach
  void open() {
    store = Store.open(directory, Clock.fixed(LATER, ZoneOffset.UTC));
    reader = StoreReader.open(directory);
    journal = store.journal();
  }

  @AfterEach
  void close() {
    reader.close();
    store.close();
  }

  private static Blade blade() {
    return new Blade(
        "paring knife",
        "plain carbon",
        OptionalDouble.of(61.5),
        OptionalDouble.of(30),
        OptionalDouble.empty(),
        OptionalDouble.of(85),
        OptionalDouble.empty(),
        "thin\ntip");
  }

  private static Session session() {
    return new Session(
        NAME,
        "paring knife",
        new Equipment(Optional.of("A"), Optional.of(RIG), Optional.empty()),
        OptionalDouble.of(20.5),
        Optional.of("kestrel"),
        OPENED,
        Optional.empty());
  }

  private static Session sessionWith(String name, Optional<String> rig, double roomCelsius) {
    return new Session(
        name,
        "paring knife",
        new Equipment(Optional.empty(), rig, Optional.of("cal-1")),
        OptionalDouble.of(roomCelsius),
        Optional.empty(),
        OPENED,
        Optional.empty());
  }

  private static SharpeningStep step() {
    return new SharpeningStep(
        LATER,
        "as found",
        "leather",
        new Grain(OptionalInt.of(3000), OptionalDouble.of(0.5)),
        Optional.of(EdgeDirection.EDGE_TRAILING),
        OptionalInt.of(10),
        Optional.of(Pressure.VERY_LIGHT),
        "slow");
  }

  private static Inspection inspection(Finding finding) {
    return new Inspection(
        LATER,
        "as found",
        new Look(Method.MAGNIFIER, OptionalDouble.of(40)),
        Side.LEFT,
        Optional.of(Place.fromHeel(35.125)),
        finding,
        "");
  }

  private void running() {
    journal.add(blade());
    journal.add(new FilamentLot("A", "nylon", Map.of(LotFigure.DIAMETER, 0.2)));
    journal.open(session());
    journal.begin(NAME, "as found");
  }

  private long cut(int number) {
    long recording = store.startRecording(Examples.recording());
    return store.append(
        NewCut.of(recording, LATER.plusSeconds(number), Examples.severed(number))
            .inRunningStage(OptionalDouble.of(number)));
  }

  private SessionLog log() {
    return reader.journal().log(NAME).orElseThrow();
  }

  @Test
  void bladesAndLotsComeBackAndKeepTheirHistory() {
    Entry<Blade> first = journal.add(blade());
    Entry<Blade> second = journal.correct(Blade.labelled("paring knife"), "wrong knife measured");
    assertThat(reader.journal().blades()).containsExactly(Blade.labelled("paring knife"));
    assertThat(reader.journal().bladeHistory("paring knife")).containsExactly(first, second);
    assertThat(second.corrects()).hasValue(first.id());

    FilamentLot thick =
        new FilamentLot("A", "nylon", Map.of(LotFigure.DIAMETER, 0.25, LotFigure.TENSION, 2.0));
    journal.add(new FilamentLot("A", "nylon", Map.of(LotFigure.DIAMETER, 0.2)));
    journal.correct(thick, "measured again");
    assertThat(reader.journal().filamentLots()).containsExactly(thick);
    assertThat(reader.journal().filamentLotHistory("A")).hasSize(2);
  }

  @Test
  void aSecondBladeOfTheSameLabelIsRefused() {
    journal.add(blade());
    assertThatThrownBy(() -> journal.add(blade()))
        .isInstanceOf(NotAccepted.class)
        .hasMessageContaining("already in the journal");
  }

  @Test
  void aCorrectionNeedsAReasonAndSomethingToCorrect() {
    journal.add(blade());
    assertThatThrownBy(() -> journal.correct(blade(), " ")).isInstanceOf(NotAccepted.class);
    assertThatThrownBy(() -> journal.correct(Blade.labelled("other"), "typo"))
        .hasMessageContaining("'other' is not in the journal");
    assertThat(reader.journal().bladeHistory("paring knife")).hasSize(1);
  }

  @Test
  void aSessionComesBackWithAllThatWasNoted() {
    running();
    Entry<StageEntry> step = journal.add(NAME, step());
    Entry<StageEntry> look = journal.add(NAME, inspection(Finding.NONE));
    Entry<StageEntry> better =
        journal.correct(NAME, look.id(), inspection(Finding.BURR_SEEN), "looked again");
    assertThat(log().session()).isEqualTo(session());
    assertThat(log().stages()).containsExactly(new Stage(1, "as found"));
    assertThat(log().entries().all()).containsExactly(step, look, better);
    assertThat(log().inspections()).containsExactly(inspection(Finding.BURR_SEEN));
  }

  @Test
  void anEntryIsCorrectedOnce() {
    running();
    Entry<StageEntry> look = journal.add(NAME, inspection(Finding.NONE));
    journal.correct(NAME, look.id(), inspection(Finding.UNSURE), "hm");
    assertThatThrownBy(
            () -> journal.correct(NAME, look.id(), inspection(Finding.BURR_SEEN), "again"))
        .isInstanceOf(NotAccepted.class)
        .hasMessageContaining("correct that one");
  }

  @Test
  void cutsLandInTheRunningStageOfTheirRig() {
    running();
    long id = cut(1);
    CutSummary summary = reader.summary(id).orElseThrow();
    assertThat(summary.place())
        .contains(new CutPlace(NAME, new Stage(1, "as found"), OptionalDouble.of(1)));
    assertThat(log().placements())
        .containsExactly(
            new CutPlacement(LATER.plusSeconds(1), "as found", id, OptionalDouble.of(1)));
  }

  @Test
  void aSessionOfAnotherRigTakesNoCutButOneOfNoRigDoes() {
    journal.add(blade());
    journal.open(sessionWith("other rig", Optional.of("ffffffffffffffff"), 20));
    journal.begin("other rig", "as found");
    assertThat(reader.summary(cut(1)).orElseThrow().place()).isEmpty();
    journal.open(sessionWith("any rig", Optional.empty(), 20));
    journal.begin("any rig", "as found");
    assertThat(reader.summary(cut(2)).orElseThrow().place().map(CutPlace::session))
        .contains("any rig");
  }

  @Test
  void aCutIsMovedByCorrectingItsPlacement() {
    running();
    long id = cut(1);
    journal.begin(NAME, "after the strop");
    long entry = log().entries().all().get(0).id();
    journal.correct(
        NAME,
        entry,
        new CutPlacement(LATER, "after the strop", id, OptionalDouble.of(40)),
        "began the stage too late");
    assertThat(reader.latest(CutSelection.all(), 10)).hasSize(1);
    assertThat(reader.summary(id).orElseThrow().place().map(CutPlace::stage))
        .contains(new Stage(2, "after the strop"));
    assertThat(reader.latest(CutSelection.all().inStage(NAME, new Stage(1, "as found")), 9))
        .isEmpty();
  }

  @Test
  void aCutIsNotPlacedTwiceNorOneThatIsNotThere() {
    running();
    long id = cut(1);
    CutPlacement again = new CutPlacement(LATER, "as found", id, OptionalDouble.empty());
    assertThatThrownBy(() -> journal.add(NAME, again))
        .hasMessageContaining("is already in session");
    CutPlacement nowhere = new CutPlacement(LATER, "as found", 99, OptionalDouble.empty());
    assertThatThrownBy(() -> journal.add(NAME, nowhere))
        .isInstanceOf(NotAccepted.class)
        .hasMessage("cut 99 is not in the store");
  }

  @Test
  void aCutSetAsideStaysButDoesNotCount() {
    running();
    long kept = cut(1);
    long slipped = cut(2);
    journal.setAside(NAME, new SetAside(LATER, slipped, "slipped"));
    CutSelection here = CutSelection.all().inSession(NAME);
    assertThat(reader.latest(here, 9)).extracting(CutSummary::id).containsExactly(slipped, kept);
    assertThat(reader.latest(here.counting(), 9)).extracting(CutSummary::id).containsExactly(kept);
    assertThat(reader.summary(slipped).orElseThrow().setAside()).contains("slipped");
    assertThat(log().reasonsByCut()).containsExactlyEntriesOf(java.util.Map.of(slipped, "slipped"));
  }

  @Test
  void aCutSetAsideCanCountAgain() {
    running();
    long cut = cut(1);
    journal.setAside(NAME, new SetAside(LATER, cut, "slipped"));
    journal.setAside(NAME, SetAside.takenBack(LATER, cut, "wrong cut"));

    assertThat(reader.summary(cut).orElseThrow().setAside()).isEmpty();
    assertThat(reader.count(CutSelection.all().inSession(NAME).counting())).isEqualTo(1);
    assertThat(reader.journal().log(NAME).orElseThrow().reasonsByCut()).isEmpty();
    assertThat(reader.journal().log(NAME).orElseThrow().setAside()).hasSize(2);
  }

  @Test
  void anEntryIsWithdrawnAndStaysInTheRecord() {
    running();
    Entry<StageEntry> noted = journal.add(NAME, inspection(Finding.NONE));

    journal.correct(NAME, noted.id(), new Withdrawn(LATER, "as found"), "wrong side");

    SessionLog log = reader.journal().log(NAME).orElseThrow();
    assertThat(log.inspections()).isEmpty();
    assertThat(log.entries().all()).contains(noted).hasSize(2);
  }

  @Test
  void cutsAreFoundByBlade() {
    running();
    long id = cut(1);
    assertThat(reader.latest(CutSelection.all().ofBlade("paring knife"), 9))
        .extracting(CutSummary::id)
        .containsExactly(id);
    assertThat(reader.count(CutSelection.all().ofBlade("bread knife"))).isZero();
  }

  @Test
  void nothingIsAddedToAClosedSessionButACorrectionIs() {
    running();
    Entry<StageEntry> look = journal.add(NAME, inspection(Finding.NONE));
    journal.close(NAME, LATER.plusSeconds(600));
    assertThatThrownBy(() -> journal.add(NAME, inspection(Finding.UNSURE)))
        .isInstanceOf(NotAccepted.class)
        .hasMessageContaining("was closed at");
    assertThatThrownBy(() -> journal.begin(NAME, "more")).isInstanceOf(NotAccepted.class);
    assertThatThrownBy(() -> journal.close(NAME, LATER)).isInstanceOf(NotAccepted.class);
    journal.correct(NAME, look.id(), inspection(Finding.UNSURE), "not sure after all");
    journal.correct(sessionWith(NAME, Optional.of(RIG), 25), "read the thermometer");
    assertThat(log().inspections()).containsExactly(inspection(Finding.UNSURE));
    assertThat(log().session().closed()).contains(LATER.plusSeconds(600));
    assertThat(log().session().roomCelsius()).hasValue(25);
    assertThat(reader.journal().sessionHistory(NAME)).hasSize(2);
    assertThat(reader.journal().runningSession(RIG)).isEmpty();
  }

  @Test
  void sessionsAreListedNewestFirst() {
    running();
    journal.open(sessionWith("Tuesday", Optional.empty(), 21));
    journal.correct(sessionWith("Tuesday", Optional.empty(), 22), "warmer");
    assertThat(reader.journal().latestSessions(5))
        .containsExactly(sessionWith("Tuesday", Optional.empty(), 22), session());
    assertThat(reader.journal().latestSessions(1)).hasSize(1);
    assertThat(reader.journal().sessionsOfBlade("paring knife"))
        .extracting(Session::name)
        .isEqualTo(List.of(NAME, "Tuesday"));
  }

  @Test
  void aSessionNeedsItsBlade() {
    assertThatThrownBy(() -> journal.open(sessionWith(NAME, Optional.empty(), 20)))
        .isInstanceOf(NotAccepted.class)
        .hasMessageContaining("blade 'paring knife' is not in the journal");
    assertThat(reader.journal().session(NAME)).isEmpty();
  }

  @Test
  void aCutIsStoredEvenIfNoStageRuns() {
    journal.add(blade());
    journal.open(sessionWith(NAME, Optional.empty(), 20));
    assertThat(reader.summary(cut(1)).orElseThrow().place()).isEmpty();
  }
}
