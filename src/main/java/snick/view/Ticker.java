package snick.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import snick.json.Json;
import snick.live.BenchState;
import snick.live.LiveTrace;
import snick.live.RigState;
import snick.view.bench.Bench;
import snick.view.http.EventHub;
import snick.view.http.ServerSentEvent;

/**
 * Live points and the rigs' state, sent at a steady pace. Everything but the greeting runs on one
 * thread.
 */
final class Ticker {
  /** Time between two bundles of live points. */
  static final long PERIOD_MILLIS = 50;

  private static final int TICKS_A_STATE = 20;

  /** While a person watches a reading settle. */
  private static final int TICKS_A_STEP = 4;

  private static final int MOST_POINTS_A_TICK = 16;
  private static final int MOST_POINTS_A_GREETING = 1000;
  private static final long GREETING_NANOS = TimeUnit.SECONDS.toNanos(12);
  private static final long PATIENCE_NANOS = TimeUnit.SECONDS.toNanos(30);

  private final Bench bench;
  private final EventHub hub;
  private final RigNotes notes;
  private final RigWorks works;
  private final long[] sent;
  private int ticks;

  Ticker(Bench bench, EventHub hub, RigNotes notes, RigWorks works) {
    this.works = works;
    this.bench = bench;
    this.hub = hub;
    this.notes = notes;
    this.sent = new long[bench.rigs().traces().size()];
  }

  /** One beat. */
  void tick() {
    boolean watched = hub.watching() > 0;
    for (int rig = 0; rig < sent.length; rig++) {
      LiveTrace.Slice slice = bench.rigs().traces().get(rig).since(sent[rig]);
      sent[rig] = slice.next();
      if (watched && slice.size() > 0) {
        points(rig, slice);
      }
    }
    ticks++;
    if (ticks % TICKS_A_STATE == 0) {
      notes.follow(bench.state().get());
      hub.dismissStalled(System.nanoTime(), PATIENCE_NANOS);
    }
    if (watched && ticks % (works.busy() ? TICKS_A_STEP : TICKS_A_STATE) == 0) {
      hub.publish(new ServerSentEvent(ServerSentEvent.Kind.STATE, state()));
    }
  }

  private void points(int rig, LiveTrace.Slice slice) {
    json(rig)
        .map(json -> json.of(slice, MOST_POINTS_A_TICK))
        .ifPresent(data -> hub.publish(new ServerSentEvent(ServerSentEvent.Kind.POINTS, data)));
  }

  /** The trace of the last seconds of each rig, for one who has just come; any thread. */
  List<ServerSentEvent> traces() {
    List<ServerSentEvent> events = new ArrayList<>();
    for (int rig = 0; rig < sent.length; rig++) {
      LiveTrace.Slice slice = bench.rigs().traces().get(rig).lastNanos(GREETING_NANOS);
      json(rig)
          .map(json -> json.of(slice, MOST_POINTS_A_GREETING))
          .ifPresent(data -> events.add(new ServerSentEvent(ServerSentEvent.Kind.TRACE, data)));
    }
    return events;
  }

  /** Empty while rest is not known: a force is a distance from rest. */
  private Optional<TraceJson> json(int rig) {
    RigState state = bench.state().get().rigs().get(rig);
    return state
        .signal()
        .rest()
        .map(
            rest ->
                new TraceJson(
                    rig, rest.levelCounts(), notes.polarity(rig), bench.calibration(rig)));
  }

  /** The state document; any thread. */
  String state() {
    BenchState state = bench.state().get();
    return Json.text(
        StateJson.of(
            state, notes.of(state), works, bench.preferences().words(), bench.clock().instant()));
  }
}
