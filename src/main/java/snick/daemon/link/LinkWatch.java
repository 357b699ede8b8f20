package snick.daemon.link;

import java.util.concurrent.TimeUnit;
import snick.live.RigState;

/** Judges an open link by when its last byte and its last reading came. One thread. */
public final class LinkWatch {
  private static final long PATIENCE_NANOS = TimeUnit.SECONDS.toNanos(3);

  private long byteNanos;
  private long readingNanos;
  private long readings;

  /** The link was opened. */
  public void opened(long nowNanos) {
    byteNanos = nowNanos;
    readingNanos = nowNanos;
  }

  /** Bytes came; {@code readingsSoFar} were decoded in all. */
  public void bytes(long nowNanos, long readingsSoFar) {
    byteNanos = nowNanos;
    if (readingsSoFar != readings) {
      readings = readingsSoFar;
      readingNanos = nowNanos;
    }
  }

  /**
   * State of the link.
   *
   * @param passing whether the device was let in
   */
  public RigState.Link link(long nowNanos, boolean passing) {
    if (nowNanos - byteNanos > PATIENCE_NANOS) {
      return RigState.Link.SILENT;
    }
    return passing && !garbled(nowNanos) ? RigState.Link.RECORDING : RigState.Link.AWAITING_HELLO;
  }

  /** Whether bytes come, and no reading was made out among them for three seconds. */
  public boolean garbled(long nowNanos) {
    return nowNanos - byteNanos <= PATIENCE_NANOS && nowNanos - readingNanos > PATIENCE_NANOS;
  }
}
