package snick.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cut.Cut;
import snick.force.budget.BudgetTerm;
import snick.force.budget.Calibration;
import snick.force.budget.DerivedForce;
import snick.force.fit.CalibrationCurve;
import snick.force.fit.ForceRange;
import snick.force.mass.Distribution;
import snick.force.reading.RigSetting;
import snick.phrase.Phrase;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.quantity.SampleRate;
import snick.store.record.CutForce;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.store.record.Evidence;
import snick.store.record.NewCut;
import snick.store.record.NewResult;
import snick.store.record.StoredCalibration;
import snick.store.record.StoredForce;
import snick.store.record.Verification;

class ForceTest {
  private static final Instant NOW = Instant.parse("2026-05-04T13:00:00Z");
  private static final String RIG = Examples.recording().deviceId();

  @TempDir Path directory;
  private Store store;
  private StoreReader reader;

  @BeforeEach
  void open() {
    store = Store.open(directory, Clock.fixed(NOW, ZoneOffset.UTC));
    reader = StoreReader.open(directory);
  }

  @AfterEach
  void close() {
    reader.close();
    store.close();
  }

  private static Calibration fitted(String id, double degreesOfFreedom) {
    return new Calibration(
        id,
        Optional.of(new RigSetting(RIG, 128, new SampleRate(80), -1)),
        NOW.minusSeconds(60),
        Optional.of(Duration.ofDays(90)),
        new CalibrationCurve(
            new double[] {1.5, 44_600.125, -3.25},
            new double[][] {{0.25, 0.01, 0.02}, {0.01, 4, 0.03}, {0.02, 0.03, 0.5}},
            degreesOfFreedom),
        ForceRange.upToNewtons(10),
        List.of(
            new BudgetTerm(
                BudgetTerm.Source.ZERO_DRIFT,
                Distribution.RECTANGULAR,
                Force.ofNewtons(0.001),
                0,
                Double.POSITIVE_INFINITY,
                "a minute's drift"),
            new BudgetTerm(
                BudgetTerm.Source.GRAVITY,
                Distribution.NORMAL,
                Force.ZERO,
                5e-5,
                50,
                "from latitude")),
        "three runs");
  }

  private static CutForce derived(Calibration calibration, Cut cut) {
    double counts = cut.peak().orElseThrow().estimateCounts();
    return new CutForce(calibration.derive(counts, 12), calibration.force(counts - 100, 0).value());
  }

  @Test
  void aCalibrationComesBackExactly() {
    Calibration calibration = fitted("cal-a", 12);
    store.add(calibration, Optional.of("{\"points\":[]}"));
    assertThat(reader.calibration("cal-a"))
        .contains(new StoredCalibration(1, NOW, calibration, Optional.of("{\"points\":[]}")));
  }

  @Test
  void aTypedInCalibrationComesBackWithItsInfiniteDegreesOfFreedom() {
    Calibration calibration = Calibration.countsPerGramForce(437.25, NOW);
    store.add(calibration, Optional.empty());
    assertThat(reader.calibrations())
        .extracting(StoredCalibration::calibration)
        .containsExactly(calibration);
  }

  @Test
  void theSameCalibrationTwiceIsOneAndAnotherOfItsIdIsRefused() {
    store.add(fitted("cal-a", 12), Optional.empty());
    store.add(fitted("cal-a", 12), Optional.empty());
    assertThat(reader.calibrations()).hasSize(1);
    assertThatThrownBy(() -> store.add(fitted("cal-a", 11), Optional.empty()))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("another calibration cal-a");
  }

  @Test
  void theCurrentCalibrationIsTheLastOfTheDeviceElseTheLastOfAny() {
    store.add(fitted("cal-a", 12), Optional.empty());
    store.add(fitted("cal-b", 13), Optional.empty());
    Calibration any = Calibration.countsPerGramForce(437.25, NOW);
    store.add(any, Optional.empty());
    assertThat(reader.currentCalibration(RIG).orElseThrow().calibration().id()).isEqualTo("cal-b");
    assertThat(reader.currentCalibration("other").orElseThrow().calibration()).isEqualTo(any);
  }

  @Test
  void aCutComesBackWithItsForce() {
    Calibration calibration = fitted("cal-a", 12);
    Cut cut = Examples.severed(1);
    CutForce force = derived(calibration, cut);
    store.add(calibration, Optional.empty());
    long id =
        store.append(
            NewCut.of(store.startRecording(Examples.recording()), Examples.NOON, cut).with(force));
    assertThat(force.estimate()).isInstanceOf(DerivedForce.Inside.class);
    assertThat(reader.summary(id).orElseThrow().force()).contains(force);
  }

  @Test
  void aForceOutsideTheRangeComesBackAsOutside() {
    Calibration calibration = fitted("cal-a", 12);
    CutForce force = new CutForce(calibration.derive(600_000, 12), Force.ofNewtons(12));
    store.add(calibration, Optional.empty());
    long id =
        store.append(
            NewCut.of(
                    store.startRecording(Examples.recording()), Examples.NOON, Examples.severed(1))
                .with(force));
    assertThat(force.estimate()).isInstanceOf(DerivedForce.Outside.class);
    assertThat(reader.summary(id).orElseThrow().force()).contains(force);
  }

  @Test
  void anUncalibratedCutHasNoForce() {
    CutForce none =
        new CutForce(
            new DerivedForce.Uncalibrated(List.of(Phrase.of("scale.none_given"))), Force.ZERO);
    long id =
        store.append(
            NewCut.of(
                    store.startRecording(Examples.recording()), Examples.NOON, Examples.severed(1))
                .with(none));
    assertThat(reader.summary(id).orElseThrow().force()).isEmpty();
  }

  @Test
  void aForceOfAnUnknownCalibrationStoresNothing() {
    long recording = store.startRecording(Examples.recording());
    Cut cut = Examples.severed(1);
    NewCut unknown =
        NewCut.of(recording, Examples.NOON, cut).with(derived(fitted("cal-x", 9), cut));
    assertThatThrownBy(() -> store.append(unknown))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("cal-x is not in the store");
    assertThat(reader.count(CutSelection.all())).isZero();
  }

  @Test
  void derivingAgainKeepsWhatWasDerivedBefore() {
    Calibration first = fitted("cal-a", 12);
    Calibration second = fitted("cal-b", 13);
    store.add(first, Optional.empty());
    store.add(second, Optional.empty());
    Cut cut = Examples.severed(1);
    long id =
        store.append(
            NewCut.of(store.startRecording(Examples.recording()), Examples.NOON, cut)
                .with(derived(first, cut)));
    Cut seenAnew = Examples.severed(1, cut.trace());
    store.addResults(
        List.of(
            new NewResult(id, Optional.empty(), Optional.of(derived(second, cut))),
            new NewResult(id, Optional.of(seenAnew), Optional.of(derived(second, seenAnew)))));
    assertThat(reader.results(id)).hasSize(2);
    assertThat(reader.forces(id))
        .extracting(StoredForce::force)
        .containsExactly(derived(first, cut), derived(second, cut), derived(second, seenAnew));
    CutSummary now = reader.summary(id).orElseThrow();
    assertThat(now.result()).isEqualTo(reader.results(id).get(1));
    assertThat(now.force()).contains(reader.forces(id).get(2).force());
  }

  @Test
  void derivingAnUnknownCutAgainStoresNothing() {
    NewResult unknown = new NewResult(5, Optional.of(Examples.severed(1)), Optional.empty());
    assertThatThrownBy(() -> store.addResults(List.of(unknown)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("cut 5");
  }

  @Test
  void verificationsAndEvidenceComeBackInTheOrderOfTime() {
    store.add(fitted("cal-a", 12), Optional.empty());
    Verification late = verification(NOW, 0.99);
    Verification early = verification(NOW.minusSeconds(9), 0.9);
    store.add(late);
    store.add(early);
    assertThat(reader.verifications(RIG)).containsExactly(early, late);
    assertThat(early.withinLimit()).isFalse();
    assertThat(late.withinLimit()).isTrue();
    Evidence dynamic = new Evidence(RIG, "dynamic_check", NOW, "{}");
    store.add(dynamic);
    assertThat(reader.evidence(RIG, "dynamic_check")).containsExactly(dynamic);
    assertThat(reader.evidence(RIG, "doctor")).isEmpty();
  }

  private static Verification verification(Instant at, double shownNewtons) {
    return new Verification(
        RIG,
        "cal-a",
        at,
        MeasuredForce.ofNewtons(1, 0.001),
        MeasuredForce.ofNewtons(shownNewtons, 0.002),
        Force.ofNewtons(0.02),
        "");
  }
}
