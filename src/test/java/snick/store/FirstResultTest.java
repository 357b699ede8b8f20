package snick.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cut.Cut;
import snick.force.budget.Calibration;
import snick.force.budget.DerivedForce;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.store.database.Database;
import snick.store.database.StoreFile;
import snick.store.database.Watch;
import snick.store.record.CutForce;
import snick.store.record.CutSummary;
import snick.store.record.Derivation;
import snick.store.record.NewCut;
import snick.store.record.NewResult;
import snick.store.record.StoredCut;
import snick.store.record.StoredForce;
import snick.store.table.CalibrationTable;
import snick.store.table.CutTable;
import snick.store.table.ForceTable;
import snick.store.table.RecordingTable;
import snick.store.table.ResultTable;

/**
 * The first result of a cut lies in its row, later ones apart: each with the forces derived of it.
 */
class FirstResultTest {
  private static final Instant LATER = Examples.NOON.plusSeconds(60);
  private static final Calibration CALIBRATION =
      Calibration.countsPerGramForce(437.25, Examples.NOON);

  @TempDir Path directory;
  private long once;
  private long twice;
  private long never;

  @BeforeEach
  void make() {
    Store.open(directory, Clock.systemUTC()).close();
    try (Database database = Database.writer(StoreFile.in(directory))) {
      database.write(() -> fill(database));
    }
  }

  private Void fill(Database database) {
    new CalibrationTable(database).add(CALIBRATION, Optional.empty(), Examples.NOON);
    long recording = new RecordingTable(database).add(Examples.recording());
    CutTable cuts = new CutTable(database);
    never = add(cuts, recording, 1);
    twice = add(cuts, recording, 2);
    once = add(cuts, recording, 3);
    ResultTable results = new ResultTable(database);
    long second = results.add(twice, new Derivation(2, LATER, Examples.released(2)));
    long third = results.add(twice, new Derivation(3, LATER, Examples.severed(2)));
    ForceTable forces = new ForceTable(database);
    forces.add(once, OptionalLong.empty(), force(1), LATER);
    forces.add(twice, OptionalLong.empty(), force(2), LATER);
    forces.add(twice, OptionalLong.of(third), force(3), LATER);
    forces.add(twice, OptionalLong.of(second), force(4), LATER);
    forces.add(twice, OptionalLong.of(third), force(5), LATER);
    forces.add(once, OptionalLong.empty(), force(6), LATER);
    return null;
  }

  private static long add(CutTable cuts, long recording, int number) {
    NewCut cut = NewCut.of(recording, Examples.NOON, Examples.severed(number));
    return cuts.add(cut, new Derivation(1, Examples.NOON, cut.cut()));
  }

  private static CutForce force(double newtons) {
    return new CutForce(
        new DerivedForce.Inside(CALIBRATION.id(), MeasuredForce.ofNewtons(newtons, 0.25), 12),
        Force.ofNewtons(0.5));
  }

  private static Stream<CutForce> of(Derivation result, List<StoredForce> forces) {
    return forces.stream().filter(f -> f.resultId() == result.id()).map(StoredForce::force);
  }

  @Test
  void everyResultAndForceIsKeptWithWhatItIsOf() {
    try (StoreReader reader = StoreReader.open(directory)) {
      List<Derivation> results = reader.results(twice);
      List<StoredForce> forces = reader.forces(twice);
      assertThat(results).extracting(Derivation::detectorVersion).containsExactly(1, 2, 3);
      assertThat(results)
          .extracting(Derivation::createdAt)
          .containsExactly(Examples.NOON, LATER, LATER);
      assertThat(results)
          .extracting(result -> result.figures().outcome())
          .containsExactly(
              Examples.severed(2).outcome(),
              Examples.released(2).outcome(),
              Examples.severed(2).outcome());
      assertThat(forces).extracting(StoredForce::createdAt).containsOnly(LATER);
      assertThat(of(results.get(0), forces)).containsExactly(force(2));
      assertThat(of(results.get(1), forces)).containsExactly(force(4));
      assertThat(of(results.get(2), forces)).containsExactly(force(3), force(5));
      assertThat(reader.verify(Watch.NONE).problems()).isEmpty();
    }
  }

  @Test
  void whatStoodStillStands() {
    try (StoreReader reader = StoreReader.open(directory)) {
      CutSummary derivedTwice = reader.summary(twice).orElseThrow();
      assertThat(derivedTwice.result()).isEqualTo(reader.results(twice).get(2));
      assertThat(derivedTwice.force()).contains(force(5));
      CutSummary derivedOnce = reader.summary(once).orElseThrow();
      assertThat(derivedOnce.result().detectorVersion()).isEqualTo(1);
      assertThat(derivedOnce.force()).contains(force(6));
      assertThat(reader.summary(never).orElseThrow().force()).isEmpty();
      assertThat(reader.cut(once).map(StoredCut::cut)).contains(Examples.severed(3));
      assertThat(reader.derivedAgain()).containsExactlyInAnyOrder(once, twice);
    }
  }

  @Test
  void whatIsDerivedNextIsTheLatest() {
    try (Store store = Store.open(directory, Clock.systemUTC())) {
      store.addResults(
          List.of(
              new NewResult(once, Optional.empty(), Optional.of(force(7))),
              new NewResult(twice, Optional.empty(), Optional.of(force(8))),
              new NewResult(never, Optional.of(Examples.released(1)), Optional.empty())));
    }
    try (StoreReader reader = StoreReader.open(directory)) {
      assertThat(of(reader.results(once).get(0), reader.forces(once)))
          .containsExactly(force(1), force(6), force(7));
      assertThat(of(reader.results(twice).get(2), reader.forces(twice)))
          .containsExactly(force(3), force(5), force(8));
      Cut current = reader.cut(never).orElseThrow().cut();
      assertThat(current.outcome()).isEqualTo(Examples.released(1).outcome());
      assertThat(reader.results(never)).hasSize(2);
    }
  }

  @Test
  void aForceOfAnotherCutThanItsResultIsNamedAndLeftOutBySalvage() {
    try (Database database = Database.writer(StoreFile.in(directory))) {
      database.query("UPDATE cut_force SET cut = ? WHERE id = 3").with(never).change();
    }
    try (StoreReader reader = StoreReader.open(directory)) {
      assertThat(reader.verify(Watch.NONE).problems())
          .contains("cut_force row 3 is of cut " + never + ", but its result 2 is of cut " + twice);
    }
    Path fresh = directory.resolve("fresh");
    assertThat(Store.salvage(directory, fresh).lost())
        .contains("1 forces: they name another cut than their result; derive them again");
    try (StoreReader reader = StoreReader.open(fresh)) {
      assertThat(reader.verify(Watch.NONE).problems()).isEmpty();
      assertThat(reader.forces(never)).isEmpty();
      assertThat(reader.forces(twice))
          .extracting(StoredForce::force)
          .containsExactly(force(2), force(4), force(5));
    }
  }
}
