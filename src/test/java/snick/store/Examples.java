package snick.store;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import snick.cut.Cut;
import snick.cut.CutFigures;
import snick.cut.Flag;
import snick.cut.Outcome;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.quantity.SampleRate;
import snick.sample.Gap;
import snick.store.record.Recording;

/** Invented things to store. */
public final class Examples {
  public static final Instant NOON = Instant.parse("2026-05-04T12:00:00.123456789Z");

  private Examples() {}

  public static Recording recording() {
    return new Recording(
        "00a1b2c3d4e5f607",
        "sketch 1.2",
        "/dev/ttyUSB0",
        Recording.Form.BINARY,
        NOON,
        OptionalInt.of(128),
        Optional.of(new SampleRate(80)),
        0);
  }

  public static Cut severed(int number) {
    return severed(number, trace(number, 600));
  }

  public static Cut severed(int number, Trace trace) {
    return new Cut(
        number,
        new CutFigures(
            Outcome.SEVERED,
            -1,
            1_000_000_000L,
            OptionalLong.of(2_000_000_000L),
            Optional.of(new Peak(50_000.5 + number, 50_100.25 + number, 12.125)),
            new CutFigures.Shape(30_000.75, 1_500_000, 1, 70),
            new CutFigures.Rest(-812.5, -811.25, 65.0625),
            Set.of(Flag.ZERO_MOVED, Flag.DIPS_BEFORE_PEAK)),
        trace);
  }

  public static Cut released(int number) {
    return new Cut(
        number,
        new CutFigures(
            Outcome.RELEASED,
            1,
            1_000_000_000L,
            OptionalLong.empty(),
            Optional.empty(),
            new CutFigures.Shape(0, 0, 0, 0),
            new CutFigures.Rest(0, 0, 1),
            Set.of()),
        trace(number, 10));
  }

  /** A ramp at 80 samples a second, with an overrange stretch and a gap. */
  public static Trace trace(int seed, int size) {
    long[] deviceNanos = new long[size];
    int[] counts = new int[size];
    boolean[] overrange = new boolean[size];
    for (int i = 0; i < size; i++) {
      deviceNanos[i] = 1_000L * (12_500L * i + (i * seed) % 7);
      counts[i] = 90 * i - (i * 7919 + seed) % 200;
      overrange[i] = i > size - 4;
    }
    return new Trace(
        deviceNanos,
        counts,
        overrange,
        List.of(new Gap(Gap.Cause.LOST_SAMPLES, 12_500_000, 50_000_000, 2)));
  }
}
