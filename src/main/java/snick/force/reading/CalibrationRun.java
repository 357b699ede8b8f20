package snick.force.reading;

import java.util.List;
import snick.force.mass.Load;

/**
 * One run: zero, loads up and perhaps down again, zero. Deflections are readings less the zero,
 * which is taken to run straight in time from the zero before to the zero after.
 *
 * @param zeroBefore without load, before
 * @param loaded readings under load, in the order taken, at least one
 * @param zeroAfter without load, after
 */
public record CalibrationRun(HeldReading zeroBefore, List<Loaded> loaded, HeldReading zeroAfter) {
  /** One reading under load. */
  public record Loaded(Load load, Direction direction, HeldReading reading) {}

  public CalibrationRun {
    loaded = List.copyOf(loaded);
    if (loaded.isEmpty()) {
      throw new IllegalArgumentException("a calibration run needs at least one load");
    }
    if (zeroAfter.fromNanos() < zeroBefore.toNanos()) {
      throw new IllegalArgumentException("the zero after a run lies before the zero before it");
    }
  }

  /** Zero at {@code nanos}, counts. */
  double zeroCounts(double nanos) {
    return zeroBefore.meanCounts() + part(nanos) * zeroMovedCounts();
  }

  /** How far {@code nanos} lies on the way from the zero before to the zero after, 0 to 1. */
  private double part(double nanos) {
    double span = zeroAfter.middleNanos() - zeroBefore.middleNanos();
    return span > 0 ? (nanos - zeroBefore.middleNanos()) / span : 0;
  }

  /** Variance that the noise of its samples leaves in the deflection of {@code of}, counts². */
  public double deflectionVariance(Loaded of) {
    double part = part(of.reading().middleNanos());
    return of.reading().meanVariance()
        + (1 - part) * (1 - part) * zeroBefore.meanVariance()
        + part * part * zeroAfter.meanVariance();
  }

  /** Zero after less zero before, counts. */
  public double zeroMovedCounts() {
    return zeroAfter.meanCounts() - zeroBefore.meanCounts();
  }

  /** Deflection of one of this run's readings, counts, positive in loading direction. */
  public double deflectionCounts(Loaded of, int polarity) {
    return polarity * (of.reading().meanCounts() - zeroCounts(of.reading().middleNanos()));
  }
}
