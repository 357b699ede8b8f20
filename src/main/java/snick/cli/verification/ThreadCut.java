package snick.cli.verification;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import snick.cli.bench.BenchFeed;
import snick.cli.bench.Operator;
import snick.cli.terminal.Refusal;
import snick.cut.Cut;
import snick.cut.CutDetector;
import snick.cut.DetectorSettings;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.force.mass.Load;
import snick.force.reading.CalibrationPlan;
import snick.force.reading.HeldReading;

/** A hanging mass whose thread is cut, as the rig sees it. */
final class ThreadCut {
  private static final long AFTER_NANOS = 3_000_000_000L;
  private static final long BEFORE_NANOS = 1_000_000_000L;
  private static final long PATIENCE_NANOS = 60_000_000_000L;
  private static final double FALLEN = 0.5;

  private final BenchFeed bench;
  private final CheckMass hands;
  private final KeptSamples log = new KeptSamples();

  /**
   * What was seen.
   *
   * @param peak the detector's estimate
   * @param aroundTheFall rest under load, fall, rest without load
   */
  record Seen(Peak peak, Trace aroundTheFall) {}

  ThreadCut(BenchFeed bench, Operator operator, PrintWriter out) {
    this.bench = bench;
    this.hands = new CheckMass(bench, operator, out);
  }

  /**
   * Leads through it.
   *
   * @throws Refusal if no clear fall comes
   */
  Seen cut(Load load) {
    bench.logTo(log);
    HeldReading zero = hands.read(new CalibrationPlan.Step.Unload(), OptionalDouble.empty());
    HeldReading loaded = hands.readUnder(load, zero);
    hands.askToCut();
    long fallenNanos = awaitFall(zero, loaded);
    if (log.isBroken()) {
      throw Refusal.failed("samples were lost meanwhile; nothing is saved, try again", null);
    }
    return new Seen(
        peak(fallenNanos), log.between(fallenNanos - BEFORE_NANOS, fallenNanos + AFTER_NANOS));
  }

  private long awaitFall(HeldReading zero, HeldReading loaded) {
    double step = loaded.meanCounts() - zero.meanCounts();
    long askedNanos = log.lastNanos();
    OptionalLong fallen = OptionalLong.empty();
    while (fallen.isEmpty() || log.lastNanos() < fallen.getAsLong() + AFTER_NANOS) {
      if (!bench.turn() || (fallen.isEmpty() && tooLate(askedNanos))) {
        throw Refusal.unavailable("no fall was seen within 60 s; nothing is saved, try again");
      }
      fallen =
          log.firstAfter(loaded.toNanos(), counts -> (counts - zero.meanCounts()) / step < FALLEN);
    }
    return fallen.getAsLong();
  }

  private boolean tooLate(long beginNanos) {
    return log.lastNanos() - beginNanos > PATIENCE_NANOS;
  }

  /** The estimate of the detector that finds cuts, told to wait longer for the rest after. */
  private Peak peak(long fallenNanos) {
    DetectorSettings usual = DetectorSettings.defaults();
    DetectorSettings patient =
        new DetectorSettings(
            usual.minimumForceCounts(),
            usual.maximumEventNanos(),
            usual.restKeptNanos(),
            AFTER_NANOS / 3,
            usual.severedFallNanos());
    List<Cut> cuts = new ArrayList<>();
    log.replay(new CutDetector(patient, cuts::add));
    return cuts.stream()
        .filter(cut -> cut.breakNanos().isPresent())
        .filter(cut -> Math.abs(cut.breakNanos().getAsLong() - fallenNanos) < BEFORE_NANOS)
        .flatMap(cut -> cut.peak().stream())
        .findFirst()
        .orElseThrow(
            () ->
                Refusal.failed(
                    "the detector saw no parting (events: "
                        + cuts.stream().map(c -> c.outcome().word()).toList()
                        + "); hang a larger mass, let it come to rest, cut in one stroke",
                    null));
  }
}
