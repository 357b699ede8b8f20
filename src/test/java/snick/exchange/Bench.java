package snick.exchange;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import snick.cut.Cut;
import snick.cut.CutDetector;
import snick.cut.DetectorSettings;
import snick.force.budget.BudgetTerm;
import snick.force.budget.Calibration;
import snick.force.fit.CalibrationCurve;
import snick.force.fit.ForceRange;
import snick.force.mass.Distribution;
import snick.force.reading.RigSetting;
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
import snick.journal.StageEntry;
import snick.journal.Withdrawn;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.quantity.SampleRate;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.record.CutForce;
import snick.store.record.HostClock;
import snick.store.record.NewCut;
import snick.store.record.NewResult;
import snick.store.record.Recording;
import snick.store.record.Verification;

/** A store with an invented session: cuts that the detector really found in simulated presses. */
public final class Bench {
  static final Instant NOON = Instant.parse("2026-05-04T12:00:00.123456789Z");
  public static final Clock CLOCK = Clock.fixed(NOON.plusSeconds(7200), ZoneOffset.UTC);
  private static final Clock REVISED = Clock.fixed(NOON.plusSeconds(9000), ZoneOffset.UTC);
  public static final String SESSION = "2026-05-04 -a";
  static final String RIG = "00a1b2c3d4e5f607";
  private static final long PERIOD_NANOS = 12_500_000;

  private Bench() {}

  static Recording recording() {
    return new Recording(
        RIG,
        "sketch 1.2",
        "/dev/serial/by-id/home-of-somebody",
        Recording.Form.BINARY,
        NOON,
        OptionalInt.of(128),
        Optional.of(new SampleRate(80)),
        0);
  }

  public static Calibration calibration() {
    return Calibration.named(
        Optional.of(new RigSetting(RIG, 128, new SampleRate(80), 1)),
        NOON.minusSeconds(86_400),
        Optional.of(Duration.ofDays(90)),
        new CalibrationCurve(
            new double[] {0.1, 44_587.3, -3.25},
            new double[][] {{4.5, -1e-3, 2e-5}, {-1e-3, 81.25, 0.5}, {2e-5, 0.5, 0.0625}},
            13),
        ForceRange.upToNewtons(6),
        List.of(
            new BudgetTerm(
                BudgetTerm.Source.GRAVITY,
                Distribution.RECTANGULAR,
                Force.ZERO,
                1.2e-5,
                Double.POSITIVE_INFINITY,
                "normal gravity at latitude 12.3456 degrees, 78 m")),
        "two runs, by somebody");
  }

  /** Simulated presses at 80 samples a second, seen by the detector: some cuts, one released. */
  public static List<Cut> cuts(int number) {
    List<Cut> found = new ArrayList<>();
    CutDetector detector = new CutDetector(DetectorSettings.defaults(), found::add);
    SplittableRandom random = new SplittableRandom(20260504);
    long nanos = 0;
    for (int i = 0; i < number; i++) {
      nanos = rest(detector, random, nanos, 240);
      nanos = press(detector, random, nanos, i);
    }
    rest(detector, random, nanos, 240);
    detector.end();
    return found;
  }

  private static double noise(SplittableRandom random) {
    return 60 * (random.nextDouble() + random.nextDouble() + random.nextDouble() - 1.5) * 2;
  }

  private static long rest(CutDetector to, SplittableRandom random, long from, int samples) {
    long nanos = from;
    for (int i = 0; i < samples; i++) {
      to.sample(nanos, (int) Math.round(-812 + noise(random)));
      nanos += PERIOD_NANOS + 1_000L * (i % 3);
    }
    return nanos;
  }

  private static long press(CutDetector to, SplittableRandom random, long from, int i) {
    long nanos = from;
    double top = 55_000 + 2_000 * (i % 7);
    int ramp = 80;
    for (int k = 0; k < ramp; k++) {
      if (i % 5 == 3 && k == 40) {
        to.gap(new Gap(Gap.Cause.LOST_SAMPLES, nanos - PERIOD_NANOS, nanos + 2 * PERIOD_NANOS, 2));
        nanos += 2 * PERIOD_NANOS;
      }
      to.sample(nanos, (int) Math.round(-812 + top * filtered(k, ramp) + noise(random)));
      nanos += PERIOD_NANOS;
    }
    if (i % 7 == 5) {
      for (int k = 0; k < 6; k++) {
        to.overrange(nanos, Rail.HIGH);
        nanos += PERIOD_NANOS;
      }
    }
    for (int k = ramp; k < ramp + 3; k++) {
      to.sample(nanos, (int) Math.round(-812 + top * filtered(k, ramp) + noise(random)));
      nanos += PERIOD_NANOS;
    }
    return nanos;
  }

  /** A load that rises over {@code ramp} samples and is gone, seen by a filter of four periods. */
  private static double filtered(int k, int ramp) {
    return (load(k, ramp) + 3 * load(k - 1, ramp) + 3 * load(k - 2, ramp) + load(k - 3, ramp)) / 8;
  }

  private static double load(int k, int ramp) {
    return k >= 0 && k < ramp ? (double) k / ramp : 0;
  }

  /** Fills a store with a closed session of {@code number} presses in two stages. */
  public static void fill(Path directory, int number) {
    try (Store store = Store.open(directory, CLOCK)) {
      store.add(
          calibration(),
          Optional.of("{\"points\":[{\"mass_g\":100.0,\"counts\":43725.5}],\"operator\":\"me\"}"));
      openSession(store);
      long recording = store.startRecording(recording());
      store.setClock(recording, new HostClock(NOON, -12.5));
      append(store, recording, cuts(number));
      note(store);
      store.journal().close(SESSION, NOON.plusSeconds(3600));
    }
  }

  private static void openSession(Store store) {
    store
        .journal()
        .add(
            new Blade(
                "=2+5 petty",
                "steel, \"w2\"",
                OptionalDouble.of(62.5),
                OptionalDouble.of(24),
                OptionalDouble.empty(),
                OptionalDouble.of(150),
                OptionalDouble.empty(),
                "a gift"));
    store
        .journal()
        .add(
            new FilamentLot(
                "lot 3",
                "nylon monofilament",
                Map.of(LotFigure.DIAMETER, 0.2, LotFigure.TENSION, 2.5)));
    store
        .journal()
        .open(
            new Session(
                SESSION,
                "=2+5 petty",
                new Equipment(
                    Optional.of("lot 3"), Optional.of(RIG), Optional.of(calibration().id())),
                OptionalDouble.of(21.5),
                Optional.of("somebody"),
                NOON.minusSeconds(60),
                Optional.empty()));
  }

  private static void append(Store store, long recording, List<Cut> cuts) {
    store.journal().begin(SESSION, "as found");
    for (Cut cut : cuts) {
      if (cut.number() == cuts.size() / 2) {
        store.journal().begin(SESSION, "stropped");
      }
      store.append(
          withForce(
                  NewCut.of(
                      recording, NOON.plusNanos(cut.breakNanos().orElse(cut.onsetNanos())), cut))
              .inRunningStage(OptionalDouble.of(10 + 2.5 * cut.number())));
    }
  }

  static NewCut withForce(NewCut cut) {
    Calibration calibration = calibration();
    return cut.cut()
        .peak()
        .map(
            peak ->
                cut.with(
                    new CutForce(
                        calibration.derive(peak.estimateCounts(), peak.standardUncertaintyCounts()),
                        Force.ofNewtons(calibration.newtons(peak.observedMaxCounts())))))
        .orElse(cut);
  }

  private static void note(Store store) {
    store
        .journal()
        .add(
            SESSION,
            new SharpeningStep(
                NOON.plusSeconds(30),
                "stropped",
                "leather strop",
                new Grain(OptionalInt.empty(), OptionalDouble.of(0.5)),
                Optional.of(EdgeDirection.EDGE_TRAILING),
                OptionalInt.of(20),
                Optional.of(Pressure.LIGHT),
                "at the window"));
    store
        .journal()
        .add(
            SESSION,
            new Inspection(
                NOON.plusSeconds(40),
                "stropped",
                new Look(Method.FREE, OptionalDouble.empty()),
                Side.BOTH,
                Optional.of(Place.parse("35mm")),
                Finding.UNSURE,
                "wiped on cloth"));
    store.journal().setAside(SESSION, new SetAside(NOON.plusSeconds(50), 2, "slipped"));
  }

  /**
   * Corrects, moves, withdraws, sets aside and counts again, derives again and checks with a mass
   * in a store that {@link #fill} filled.
   */
  static void revise(Path directory) {
    try (Store store = Store.open(directory, REVISED)) {
      correctJournal(store);
      correctEntries(store, directory);
      deriveAgain(store);
      store.add(
          new Verification(
              RIG,
              calibration().id(),
              NOON.minusSeconds(600),
              MeasuredForce.ofNewtons(0.980665, 0.000012),
              MeasuredForce.ofNewtons(0.9811, 0.0004),
              Force.ofNewtons(0.005),
              "{\"readings\":[43726.5],\"note\":\"after tea\"}"));
    }
  }

  private static void correctJournal(Store store) {
    store
        .journal()
        .correct(
            new Blade(
                "=2+5 petty",
                "steel, \"w3\"",
                OptionalDouble.of(63),
                OptionalDouble.of(24),
                OptionalDouble.empty(),
                OptionalDouble.of(150),
                OptionalDouble.empty(),
                "a gift"),
            "read the box again");
    store
        .journal()
        .correct(
            new FilamentLot("lot 3", "nylon monofilament", Map.of(LotFigure.DIAMETER, 0.21)),
            "measured");
    store
        .journal()
        .correct(
            new Session(
                SESSION,
                "=2+5 petty",
                new Equipment(
                    Optional.of("lot 3"), Optional.of(RIG), Optional.of(calibration().id())),
                OptionalDouble.of(22),
                Optional.of("somebody"),
                NOON.minusSeconds(60),
                Optional.empty()),
            "the thermometer hung in the sun");
  }

  private static void correctEntries(Store store, Path directory) {
    SessionLog log;
    try (StoreReader reader = StoreReader.open(directory)) {
      log = reader.journal().log(SESSION).orElseThrow();
    }
    for (Entry<StageEntry> entry : log.entries().standing()) {
      if (entry.content() instanceof Inspection inspection) {
        store
            .journal()
            .correct(
                SESSION,
                entry.id(),
                new Withdrawn(inspection.at(), inspection.stage()),
                "it was the other blade");
      } else if (entry.content() instanceof SharpeningStep step) {
        store.journal().correct(SESSION, entry.id(), longer(step), "counted again");
      } else if (entry.content() instanceof CutPlacement placement && placement.cut() == 3) {
        store
            .journal()
            .correct(
                SESSION,
                entry.id(),
                new CutPlacement(placement.at(), "stropped", 3, OptionalDouble.of(44.5)),
                "it was after the strop");
      }
    }
    store.journal().setAside(SESSION, new SetAside(NOON.plusSeconds(55), 4, "slipped too"));
    store.journal().setAside(SESSION, SetAside.takenBack(NOON.plusSeconds(59), 4, "it had not"));
  }

  private static SharpeningStep longer(SharpeningStep step) {
    return new SharpeningStep(
        step.at(),
        step.stage(),
        step.abrasive(),
        new Grain(step.grain().grit(), step.grain().micron()),
        step.direction(),
        OptionalInt.of(30),
        step.pressure(),
        step.note());
  }

  private static void deriveAgain(Store store) {
    Calibration other = Calibration.countsPerGramForce(437.25, NOON.minusSeconds(3600));
    store.add(other, Optional.empty());
    List<NewResult> derived = new ArrayList<>();
    for (Cut cut : cuts(2)) {
      derived.add(new NewResult(cut.number(), Optional.of(cut), Optional.empty()));
      derived.add(new NewResult(cut.number(), Optional.empty(), force(other, cut)));
      derived.add(new NewResult(cut.number(), Optional.empty(), withForce(plain(cut)).force()));
    }
    store.addResults(derived);
  }

  private static NewCut plain(Cut cut) {
    return NewCut.of(1, NOON, cut);
  }

  private static Optional<CutForce> force(Calibration calibration, Cut cut) {
    return cut.peak()
        .map(
            peak ->
                new CutForce(
                    calibration.derive(peak.estimateCounts(), peak.standardUncertaintyCounts()),
                    Force.ofNewtons(calibration.newtons(peak.observedMaxCounts()))));
  }
}
