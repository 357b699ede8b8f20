package snick.daemon;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import snick.phrase.Phrase;
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
  List<Phrase> look(long arrivalNanos, long deviceNanos, StreamFacts facts) {
    List<Phrase> said = new ArrayList<>();
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

  private void rail(StreamFacts facts, List<Phrase> said) {
    long readings = facts.samples() - begin.samples();
    if (!railSaid && readings > 0 && facts.overrange() - begin.overrange() == readings) {
      railSaid = true;
      said.add(Phrase.of("doubt.at_the_end_of_range"));
    }
  }

  private void time(long arrivalNanos, long deviceNanos, StreamFacts facts, List<Phrase> said) {
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

  private Phrase rate(double ratio) {
    return Phrase.of("doubt.rate")
        .with("hertz", String.format(Locale.ROOT, "%.1f", assumedHertz * ratio))
        .with("assumed", String.format(Locale.ROOT, "%.4g", assumedHertz));
  }

  private static Phrase clock(double ratio) {
    return Phrase.of(
        "doubt.clock", "ratio", String.format(Locale.ROOT, "%.3g", ratio), "cause", cause(ratio));
  }

  private static Phrase cause(double ratio) {
    if (near(ratio, 1e-3)) {
      return Phrase.of("doubt.larger_unit");
    }
    return Phrase.of(near(ratio, 1e3) ? "doubt.smaller_unit" : "doubt.no_time");
  }

  private static boolean near(double ratio, double other) {
    return ratio > other / 2 && ratio < other * 2;
  }

  private void restarts(long arrivalNanos, StreamFacts facts, List<Phrase> said) {
    if (!restartsSaid && facts.restarts() - restartsThen >= RESTARTS_TO_DOUBT) {
      restartsSaid = true;
      said.add(Phrase.of("doubt.time_went_back", "n", facts.restarts() - restartsThen));
    }
    if (arrivalNanos - restartsSinceNanos > RESTARTS_WITHIN_NANOS) {
      restartsSinceNanos = arrivalNanos;
      restartsThen = facts.restarts();
    }
  }
}
