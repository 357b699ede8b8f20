package snick.cli.bench;

import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;

/**
 * Watches a reading at rest, and then whether it moves: by more than rest can, for several readings
 * in a row. One thread.
 */
final class TouchWatch implements SampleSink {
  private static final int REST_SAMPLES = 40;
  private static final int MOVED_SAMPLES = 3;

  /** So many standard deviations at rest are a move. */
  private static final double FAR = 20;

  private long samples;
  private double meanCounts;
  private double squares;
  private boolean waiting;
  private int movedInARow;
  private double farthestCounts;
  private long overrange;

  /** Whether rest is known. */
  boolean restKnown() {
    return samples >= REST_SAMPLES;
  }

  /** From now on a move is waited for. */
  void waitForMove() {
    waiting = true;
  }

  /** Whether it moved. */
  boolean moved() {
    return movedInARow >= MOVED_SAMPLES;
  }

  /** Farthest from rest, counts: positive if the reading rose. */
  double farthestCounts() {
    return farthestCounts;
  }

  double meanCounts() {
    return meanCounts;
  }

  /** Standard deviation at rest, counts. */
  double sdCounts() {
    return Math.sqrt(squares / Math.max(1, samples - 1));
  }

  /** Farther from rest is a move, counts. */
  double farCounts() {
    return FAR * Math.max(sdCounts(), 1);
  }

  long overrange() {
    return overrange;
  }

  @Override
  public void sample(long deviceNanos, int counts) {
    if (!waiting) {
      samples++;
      double step = counts - meanCounts;
      meanCounts += step / samples;
      squares += step * (counts - meanCounts);
    } else {
      double away = counts - meanCounts;
      boolean far = Math.abs(away) > farCounts();
      movedInARow = far ? movedInARow + 1 : moved() ? movedInARow : 0;
      farthestCounts = Math.abs(away) > Math.abs(farthestCounts) ? away : farthestCounts;
    }
  }

  @Override
  public void overrange(long deviceNanos, Rail rail) {
    overrange++;
  }

  @Override
  public void gap(Gap gap) {}

  @Override
  public void end() {}
}
