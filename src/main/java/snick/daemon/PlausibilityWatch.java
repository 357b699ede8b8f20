package snick.daemon;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import snick.sample.StreamFacts;

/**
 * Holds what is read from a live text stream against what can be: its time against that of arrival,
 * readings at a rail, restarts. Each doubt is said once. Pure; one thread.
 */
final class PlausibilityWatch {
  private static final long WINDOW_NANOS = TimeUnit.SECONDS.toNanos(3);
  private static final double MOST_OFF = 0.1;

  /** Windows in a row that must be off: a host may sleep through one. */
  private static final int WINDOWS_TO_DOUBT = 2;

  private static final int RESTARTS_TO_DOUBT = 3;
  private static final long RESTARTS_WITHIN_NANOS = TimeUnit.SECONDS.toNanos(20);

  private final double assumedHertz;
  private boolean begun;
  private long beginArrivalNanos;
  private long beginDeviceNanos;
  private StreamFacts begin = StreamFacts.NONE;
  private int windowsOff;
  private long restartsSinceNanos;
  private long restartsThen;
  private boolean timeSaid;
  private boolean railSaid;
  private boolean restartsSaid;

  /**
   * A watch.
   *
   * @param assumedHertz rate taken for readings without time
   */
  PlausibilityWatch(double assumedHertz) {
    this.assumedHertz = assumedHertz;
  }

  /** The link was opened again. */
  void reopened() {
    begun = false;
    windowsOff = 0;
  }

  /**
   * How far the stream is now; what there is to say.
   *
   * @param arrivalNanos host's monotonic time at which the newest bytes came
   * @param deviceNanos time of the newest reading
   */
  List<String> look(long arrivalNanos, long deviceNanos, StreamFacts facts) {
    List<String> said = new ArrayList<>();
    if (!begun) {
      begun = true;
      restartsSinceNanos = arrivalNanos;
      restartsThen = facts.restarts();
      open(arrivalNanos, deviceNanos, facts);
    } else if (arrivalNanos - beginArrivalNanos >= WINDOW_NANOS) {
      rail(facts, said);
      time(arrivalNanos, deviceNanos, facts, said);
      open(arrivalNanos, deviceNanos, facts);
    }
    restarts(arrivalNanos, facts, said);
    return said;
  }

  private void open(long arrivalNanos, long deviceNanos, StreamFacts facts) {
    beginArrivalNanos = arrivalNanos;
    beginDeviceNanos = deviceNanos;
    begin = facts;
  }

  private void rail(StreamFacts facts, List<String> said) {
    long readings = facts.samples() - begin.samples();
    if (!railSaid && readings > 0 && facts.overrange() - begin.overrange() == readings) {
      railSaid = true;
      said.add(
          "every reading for 3 s stands at the end of the converter's range: a wire is open, the"
              + " cell is overloaded, or the code is offset binary (--columns offset24)");
    }
  }

  private void time(long arrivalNanos, long deviceNanos, StreamFacts facts, List<String> said) {
    boolean broken =
        facts.restarts() != begin.restarts() || facts.formChanges() != begin.formChanges();
    if (timeSaid || broken || facts.samples() == begin.samples()) {
      windowsOff = 0;
      return;
    }
    double ratio = (double) (deviceNanos - beginDeviceNanos) / (arrivalNanos - beginArrivalNanos);
    windowsOff = Math.abs(ratio - 1) > MOST_OFF ? windowsOff + 1 : 0;
    if (windowsOff == WINDOWS_TO_DOUBT) {
      timeSaid = true;
      said.add(facts.timelessSamples() > begin.timelessSamples() ? rate(ratio) : clock(ratio));
    }
  }

  private String rate(double ratio) {
    return String.format(
        Locale.ROOT,
        "readings come at about %.1f a second, not at the %.4g that are assumed: say --rate, or"
            + " announce it ('# rate=80')",
        assumedHertz * ratio,
        assumedHertz);
  }

  private static String clock(double ratio) {
    return String.format(
        Locale.ROOT,
        "the time in the lines goes %.3g times as fast as the clock here: %s",
        ratio,
        cause(ratio));
  }

  private static String cause(double ratio) {
    if (near(ratio, 1e-3)) {
      return "it is in the next larger unit (--columns time_ms,counts for milliseconds)";
    }
    if (near(ratio, 1e3)) {
      return "it is in the next smaller unit (--columns time_us,counts for microseconds)";
    }
    return "it may be no time at all, or lines are lost; say what the columns are, as in --columns"
        + " -,counts";
  }

  private static boolean near(double ratio, double other) {
    return ratio > other / 2 && ratio < other * 2;
  }

  private void restarts(long arrivalNanos, StreamFacts facts, List<String> said) {
    if (!restartsSaid && facts.restarts() - restartsThen >= RESTARTS_TO_DOUBT) {
      restartsSaid = true;
      said.add(
          "its time went back "
              + (facts.restarts() - restartsThen)
              + " times within 20 s: hardly restarts; is the first column a time? Say what the"
              + " columns are, as in --columns counts,-");
    }
    if (arrivalNanos - restartsSinceNanos > RESTARTS_WITHIN_NANOS) {
      restartsSinceNanos = arrivalNanos;
      restartsThen = facts.restarts();
    }
  }
}
