package snick.daemon.link;

import java.io.IOException;
import java.time.Duration;
import snick.frame.binary.HostFrames;
import snick.frame.message.HostCommand;
import snick.frame.message.MessageType;
import snick.port.ByteLink;
import snick.port.ByteSource;

/** Asks a device who it is, once a second until nobody wants to know. One thread. */
public final class HelloRequests {
  private static final long EVERY_NANOS = Duration.ofSeconds(1).toNanos();

  private final HostTime time;
  private final HostFrames frames = new HostFrames();
  private boolean asked;
  private long askedNanos;
  private int tag;

  /** Asks by {@code time}. */
  public HelloRequests(HostTime time) {
    this.time = time;
  }

  /** The device may be another one: it is asked at once. */
  public void again() {
    asked = false;
  }

  /**
   * Asks what can be asked, if a second has passed since the last time.
   *
   * @throws snick.port.LinkLostException if it went away
   */
  public void askIfDue(ByteSource source) throws IOException {
    long nowNanos = time.monotonicNanos();
    if (source instanceof ByteLink device && (!asked || nowNanos - askedNanos >= EVERY_NANOS)) {
      asked = true;
      askedNanos = nowNanos;
      tag = (tag + 1) & 0xFF;
      device.write(frames.encode(new HostCommand(MessageType.ASK_HELLO, tag, 0)));
    }
  }
}
