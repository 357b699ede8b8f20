package snick.force.reading;

import java.util.List;
import java.util.Optional;
import snick.force.mass.Load;

/**
 * Everything read at the bench for one calibration. Raw: forces and curve are derived from it and
 * can be derived again.
 *
 * @param setting rig and setting
 * @param runs one to twenty runs
 * @param hold a load left resting, for creep; if it was done
 */
public record CalibrationData(
    RigSetting setting, List<CalibrationRun> runs, Optional<CreepHold> hold) {
  private static final int MOST_RUNS = 20;

  /**
   * A load left resting.
   *
   * @param load the load
   * @param readings readings in order of time, at least two
   */
  public record CreepHold(Load load, List<HeldReading> readings) {
    public CreepHold {
      readings = List.copyOf(readings);
      if (readings.size() < 2) {
        throw new IllegalArgumentException("a creep hold needs at least two readings");
      }
    }

    /** Last reading less first, counts. */
    public double changeCounts() {
      return readings.get(readings.size() - 1).meanCounts() - readings.get(0).meanCounts();
    }

    /** Time between first and last reading, s. */
    public double spanSeconds() {
      return (readings.get(readings.size() - 1).middleNanos() - readings.get(0).middleNanos())
          / 1e9;
    }
  }

  public CalibrationData {
    runs = List.copyOf(runs);
    if (runs.isEmpty() || runs.size() > MOST_RUNS) {
      throw new IllegalArgumentException(runs.size() + " calibration runs: 1 to 20 allowed");
    }
  }
}
