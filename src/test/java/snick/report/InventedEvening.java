package snick.report;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import snick.cut.Cut;
import snick.cut.CutFigures;
import snick.cut.Flag;
import snick.cut.Outcome;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.force.budget.Calibration;
import snick.force.fit.ForceRange;
import snick.journal.Blade;
import snick.journal.EdgeDirection;
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
import snick.journal.SetAside;
import snick.journal.SharpeningStep;
import snick.journal.SharpeningStep.Grain;
import snick.journal.Side;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.quantity.SampleRate;
import snick.store.Store;
import snick.store.record.CutForce;
import snick.store.record.NewCut;
import snick.store.record.Recording;
import snick.store.record.Verification;

/** A session with an invented knife, as text from people and devices could be at its worst. */
public final class InventedEvening {
  public static final String HOSTILE =
      "\"><script>alert('x')</script><img src=x onerror=alert(1)>|`*_";
  static final String SECRET_NOTE = "told by the neighbour";
  static final String OPERATOR = "night owl";
  public static final String SESSION = "evening";

  /** What people typed, and ids: in no language. */
  public static final List<String> NAMES =
      List.of(
          HOSTILE,
          SECRET_NOTE,
          OPERATOR,
          SESSION,
          "clamp slipped",
          "plain carbon",
          "spool b",
          "nylon monofilament",
          "ceramic rod",
          "leather strop",
          "as found",
          "deburred, a long name for one stage of the work",
          "deburred, a long name f…",
          "\"><script>alert('x')</s…",
          "cal-",
          "stropped again",
          "invented study");

  public static final String RIG = "00a1b2c3d4e5f607";

  private static final Instant BEGAN = Instant.parse("2026-05-04T18:00:00Z");
  private static final double COUNTS_PER_GRAM_FORCE = 437.25;
  private static final int PERIOD_NANOS = 12_500_000;

  private final Store store;
  private final Calibration calibration;
  private final long recording;
  private Instant now = BEGAN;
  private int cuts;

  private InventedEvening(Path directory) {
    store = Store.open(directory, Clock.fixed(BEGAN, ZoneOffset.UTC));
    double perNewton = COUNTS_PER_GRAM_FORCE / Force.NEWTONS_PER_GRAM_FORCE;
    calibration =
        Calibration.straightLine(
            Optional.empty(),
            BEGAN.minusSeconds(86_400),
            new Calibration.Line(perNewton, 0.001 * perNewton, 0, 0),
            ForceRange.upToNewtons(10));
    store.add(calibration, Optional.empty());
    recording =
        store.startRecording(
            new Recording(
                RIG,
                HOSTILE,
                "/dev/ttyUSB0",
                Recording.Form.BINARY,
                BEGAN,
                OptionalInt.of(128),
                Optional.of(new SampleRate(80)),
                0));
  }

  /** Fills the store in {@code directory}; the blade and the last stage are called {@code name}. */
  public static void in(Path directory, String name) {
    InventedEvening evening = new InventedEvening(directory);
    evening.fill(name, Optional.of(RIG), Optional.of(evening.calibration.id()));
  }

  /** The same, but the session names neither rig nor calibration. */
  static void withoutRig(Path directory, String name) {
    new InventedEvening(directory).fill(name, Optional.empty(), Optional.empty());
  }

  private void fill(String name, Optional<String> rig, Optional<String> calibrated) {
    open(name, new Equipment(Optional.of("spool b"), rig, calibrated));
    asFound();
    deburred();
    stropped(name);
    stroppedAgain();
    store.journal().close(SESSION, later());
    store.close();
  }

  private Instant later() {
    now = now.plusSeconds(60);
    return now;
  }

  private void open(String name, Equipment equipment) {
    store
        .journal()
        .add(
            new Blade(
                name,
                "plain carbon",
                OptionalDouble.of(61.5),
                OptionalDouble.of(30),
                OptionalDouble.empty(),
                OptionalDouble.of(180),
                OptionalDouble.empty(),
                SECRET_NOTE));
    store
        .journal()
        .add(new FilamentLot("spool b", "nylon monofilament", Map.of(LotFigure.DIAMETER, 0.25)));
    for (int i = 0; i < 4; i++) {
      check(0.3 * i - 0.4);
    }
    store
        .journal()
        .open(
            new Session(
                SESSION,
                name,
                equipment,
                OptionalDouble.of(20.5),
                Optional.of(OPERATOR),
                BEGAN,
                Optional.empty()));
  }

  private void check(double awayGf) {
    double known = Force.ofGramForce(200).newtons();
    store.add(
        new Verification(
            RIG,
            calibration.id(),
            BEGAN.minusSeconds(3600),
            MeasuredForce.ofNewtons(known, 1e-4),
            MeasuredForce.ofNewtons(known + Force.ofGramForce(awayGf).newtons(), 2e-3),
            Force.ofGramForce(1),
            ""));
  }

  private void asFound() {
    String stage = "as found";
    store.journal().begin(SESSION, stage);
    cut(true, 193.3, 226.6, 177.1, 215.5, 206.4, 225.5);
    look(stage, Method.RAKING_LIGHT, Side.LEFT, Finding.BURR_SEEN, SECRET_NOTE);
    look(stage, Method.RAKING_LIGHT, Side.RIGHT, Finding.NONE, "");
  }

  private void deburred() {
    String stage = "deburred, a long name for one stage of the work";
    store.journal().begin(SESSION, stage);
    step(stage, "ceramic rod", OptionalInt.of(1200), OptionalDouble.empty(), SECRET_NOTE);
    List<Long> ids = cut(false, 127.8, 134.9, 137.6, 123.9, 131.7, 61.5);
    store
        .journal()
        .setAside(
            SESSION,
            new SetAside(later(), ids.get(ids.size() - 1), "clamp slipped, " + SECRET_NOTE));
    look(stage, Method.FINGERTIP, Side.BOTH, Finding.NONE, "");
  }

  private void stropped(String name) {
    store.journal().begin(SESSION, name);
    step(name, HOSTILE, OptionalInt.empty(), OptionalDouble.of(1), "");
    cut(false, 93.7, 89.6, 96.4, 90.9, 98.4, 94.3);
    look(name, Method.RAKING_LIGHT, Side.BOTH, Finding.NONE, "");
    look(name, Method.THIN_PAPER, Side.BOTH, Finding.CLEAN, "");
  }

  private void stroppedAgain() {
    String stage = "stropped again";
    store.journal().begin(SESSION, stage);
    step(stage, "leather strop", OptionalInt.empty(), OptionalDouble.of(1), "");
    cut(false, 95.1, 90.4, 94.9, 92.3, 97.2, 93.4);
    look(stage, Method.RAKING_LIGHT, Side.BOTH, Finding.NONE, "");
  }

  private void look(String stage, Method method, Side side, Finding finding, String note) {
    store
        .journal()
        .add(
            SESSION,
            new Inspection(
                later(),
                stage,
                new Look(method, OptionalDouble.empty()),
                side,
                Optional.of(Place.Region.HEEL),
                finding,
                note));
  }

  private void step(
      String stage, String abrasive, OptionalInt grit, OptionalDouble micron, String note) {
    store
        .journal()
        .add(
            SESSION,
            new SharpeningStep(
                later(),
                stage,
                abrasive,
                new Grain(grit, micron),
                Optional.of(EdgeDirection.EDGE_TRAILING),
                OptionalInt.of(20),
                Optional.of(Pressure.VERY_LIGHT),
                note));
  }

  private List<Long> cut(boolean dips, double... gramForces) {
    List<Long> ids = new ArrayList<>();
    for (int i = 0; i < gramForces.length; i++) {
      Cut cut = severed(++cuts, gramForces[i], dips && i % 2 == 0);
      double u = cut.peak().orElseThrow().standardUncertaintyCounts();
      double counts = cut.peak().orElseThrow().estimateCounts();
      CutForce force =
          new CutForce(calibration.derive(counts, u), calibration.force(0.98 * counts, u).value());
      ids.add(
          store.append(
              NewCut.of(recording, later(), cut)
                  .with(force)
                  .inRunningStage(OptionalDouble.of(20 + 30 * i))));
    }
    return ids;
  }

  /** A straight ramp of one second that breaks, at 80 samples a second. */
  private static Cut severed(int number, double gramForce, boolean dips) {
    double peak = gramForce * COUNTS_PER_GRAM_FORCE;
    int rest = 100;
    int ramp = 80;
    int size = rest + ramp + 15;
    long[] nanos = new long[size];
    int[] counts = new int[size];
    for (int i = 0; i < size; i++) {
      nanos[i] = (long) i * PERIOD_NANOS;
      boolean loading = i >= rest && i < rest + ramp;
      counts[i] =
          8000 + (i * 7919 + number) % 60 + (loading ? (int) (peak * (i - rest) / ramp) : 0);
    }
    Set<Flag> flags = dips ? EnumSet.of(Flag.DIPS_BEFORE_PEAK) : Set.of();
    return new Cut(
        number,
        new CutFigures(
            Outcome.SEVERED,
            1,
            (long) rest * PERIOD_NANOS,
            OptionalLong.of((long) (rest + ramp) * PERIOD_NANOS),
            Optional.of(new Peak(0.98 * peak, peak, 0.001 * peak)),
            new CutFigures.Shape(peak, 5_000_000, dips ? 1 : 0, ramp),
            new CutFigures.Rest(8030, 8031, 17),
            flags),
        new Trace(nanos, counts, new boolean[size], List.of()));
  }
}
