package snick.view.http;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;

/**
 * Spreads events to everyone who watches, and keeps the latest lasting ones for those who come
 * back. Publishing never waits for a viewer. Safe for any thread.
 */
public final class EventHub {
  /** Most viewers at once. */
  public static final int MOST_VIEWERS = 32;

  private static final int KEPT = 256;

  private final String epoch;
  private final Supplier<List<ServerSentEvent>> greeting;
  private final Deque<Numbered> kept = new ArrayDeque<>();
  private final List<Viewer> viewers = new ArrayList<>();
  private long last;
  private boolean closed;

  private record Numbered(long number, Viewer.Frame frame) {}

  /**
   * An empty hub.
   *
   * @param startedAt tells ids of this run from those of another
   * @param greeting what everyone gets first: the present state
   */
  public EventHub(Instant startedAt, Supplier<List<ServerSentEvent>> greeting) {
    this.epoch = Long.toString(startedAt.toEpochMilli(), Character.MAX_RADIX);
    this.greeting = greeting;
  }

  /**
   * Lets one more viewer in.
   *
   * @param lastEventId id of the last lasting event that it has seen, if it comes back
   * @return empty if there are {@value #MOST_VIEWERS} already
   */
  public Optional<Viewer> admit(Optional<String> lastEventId) {
    List<ServerSentEvent> first = greeting.get();
    synchronized (this) {
      viewers.removeIf(Viewer::gone);
      if (closed || viewers.size() >= MOST_VIEWERS) {
        return Optional.empty();
      }
      Viewer viewer = new Viewer();
      long seen = lastEventId.map(this::numberOf).orElse(last);
      kept.stream().filter(k -> k.number() > seen).forEach(k -> viewer.offer(k.frame()));
      first.forEach(event -> viewer.offer(frame(event, Optional.empty())));
      viewers.add(viewer);
      return Optional.of(viewer);
    }
  }

  /** Number in an id of this run; the last one for an id of another run, whose events are gone. */
  private long numberOf(String id) {
    int dash = id.indexOf('-');
    if (dash < 0 || !id.substring(0, dash).equals(epoch)) {
      return last;
    }
    try {
      return Long.parseLong(id.substring(dash + 1));
    } catch (NumberFormatException e) {
      return last;
    }
  }

  /** Sends {@code event} to all who watch. */
  public synchronized void publish(ServerSentEvent event) {
    Viewer.Frame frame;
    if (event.kind().lasting()) {
      last++;
      frame = frame(event, Optional.of(epoch + "-" + last));
      keep(new Numbered(last, frame));
    } else {
      frame = frame(event, Optional.empty());
    }
    viewers.forEach(viewer -> viewer.offer(frame));
  }

  private void keep(Numbered numbered) {
    kept.add(numbered);
    if (kept.size() > KEPT) {
      kept.remove();
    }
  }

  private static Viewer.Frame frame(ServerSentEvent event, Optional<String> id) {
    String text =
        id.map(i -> "id: " + i + "\n").orElse("")
            + "event: "
            + event.kind().word()
            + "\ndata: "
            + event.data()
            + "\n\n";
    return new Viewer.Frame(event.kind(), text.getBytes(StandardCharsets.UTF_8));
  }

  /** How many watch. */
  public synchronized int watching() {
    viewers.removeIf(Viewer::gone);
    return viewers.size();
  }

  /** Sends everyone away for good. */
  public synchronized void close() {
    closed = true;
    viewers.forEach(Viewer::dismiss);
  }

  /** Sends those away who took nothing since {@code patienceNanos} though something waits. */
  public synchronized void dismissStalled(long nowNanos, long patienceNanos) {
    viewers.stream()
        .filter(viewer -> viewer.stalled(nowNanos, patienceNanos))
        .forEach(Viewer::dismiss);
    viewers.removeIf(Viewer::gone);
  }
}
