package snick.view.http;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Iterator;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

/**
 * One who watches: a bounded queue of frames, and the writing of them. {@link #offer} never waits;
 * {@link #write} runs on the viewer's own thread and may stall as long as its reader does.
 */
public final class Viewer {
  private static final int MOST_POINTS = 64;
  private static final int MOST_FRAMES = 512;
  private static final long HEARTBEAT_NANOS = TimeUnit.SECONDS.toNanos(10);
  private static final byte[] HEARTBEAT = ": still here\n\n".getBytes(StandardCharsets.UTF_8);
  private static final byte[] OPENING = "retry: 1000\n\n".getBytes(StandardCharsets.UTF_8);

  private final Deque<Frame> waiting = new ArrayDeque<>();
  private int waitingPoints;
  private long missedFrames;
  private long takenNanos = System.nanoTime();
  private boolean gone;
  private Thread writer;

  /**
   * An event ready to be sent.
   *
   * @param bytes shared by all viewers: never changed
   */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  record Frame(ServerSentEvent.Kind kind, byte[] bytes) {}

  /** Queues {@code frame}; drops the oldest live points if there are too many. */
  synchronized void offer(Frame frame) {
    if (gone) {
      return;
    }
    if (frame.kind().onlyNewest()) {
      waiting.removeIf(f -> f.kind() == frame.kind());
    }
    waiting.add(frame);
    if (frame.kind() == ServerSentEvent.Kind.POINTS && ++waitingPoints > MOST_POINTS) {
      dropOldestPoints();
    }
    if (waiting.size() > MOST_FRAMES) {
      dismiss();
    }
    notifyAll();
  }

  private void dropOldestPoints() {
    Iterator<Frame> frames = waiting.iterator();
    while (frames.hasNext()) {
      if (frames.next().kind() == ServerSentEvent.Kind.POINTS) {
        frames.remove();
        waitingPoints--;
        missedFrames++;
        return;
      }
    }
  }

  /** Writes to {@code out} until the reader goes or is sent away. */
  void write(OutputStream out) throws IOException {
    begin();
    try {
      out.write(OPENING);
      out.flush();
      for (Optional<byte[]> next = next(); next.isPresent(); next = next()) {
        out.write(next.get());
        out.flush();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } finally {
      end();
    }
  }

  private synchronized void begin() {
    writer = Thread.currentThread();
    takenNanos = System.nanoTime();
  }

  private synchronized void end() {
    gone = true;
    writer = null;
    waiting.clear();
  }

  /** The next bytes, a heartbeat after ten quiet seconds; empty once sent away. */
  private synchronized Optional<byte[]> next() throws InterruptedException {
    takenNanos = System.nanoTime();
    while (waiting.isEmpty() && !gone) {
      long left = HEARTBEAT_NANOS - (System.nanoTime() - takenNanos);
      if (left <= 0) {
        return Optional.of(HEARTBEAT);
      }
      wait(Math.max(1, TimeUnit.NANOSECONDS.toMillis(left)));
    }
    return gone ? Optional.empty() : Optional.of(take());
  }

  private byte[] take() {
    if (missedFrames > 0) {
      byte[] missed =
          ("event: missed\ndata: {\"frames\":" + missedFrames + "}\n\n")
              .getBytes(StandardCharsets.UTF_8);
      missedFrames = 0;
      return missed;
    }
    Frame frame = waiting.remove();
    if (frame.kind() == ServerSentEvent.Kind.POINTS) {
      waitingPoints--;
    }
    return frame.bytes();
  }

  /** Whether nothing was taken since {@code patienceNanos} though something waits. */
  synchronized boolean stalled(long nowNanos, long patienceNanos) {
    return !waiting.isEmpty() && nowNanos - takenNanos > patienceNanos;
  }

  /**
   * Sends the viewer away. A write that hangs ends too: interrupting a thread that is blocked in an
   * interruptible channel closes the channel.
   */
  synchronized void dismiss() {
    gone = true;
    waiting.clear();
    if (writer != null) {
      writer.interrupt();
    }
    notifyAll();
  }

  /** Whether it watches no longer. */
  synchronized boolean gone() {
    return gone;
  }
}
