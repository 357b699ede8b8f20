package snick.daemon.link;

import java.io.IOException;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.TimeUnit;
import snick.port.ByteSource;
import snick.port.PortAddress;
import snick.port.PortException;
import snick.port.Ports;

/**
 * How one rig is opened: first as the person names it, later under its lasting name; and what to do
 * when that fails. One thread.
 */
public final class RigOpening {
  /**
   * A device that has just come belongs to nobody, or to a program that probes for modems, until
   * the system has set it up.
   */
  private static final long SETTLING_NANOS = TimeUnit.SECONDS.toNanos(10);

  private final PortAddress address;
  private final Ports ports;
  private final WhenAbsent absent;
  private final RigFinder finder;
  private Optional<PortAddress> lastingName = Optional.empty();
  private OptionalLong thereNanos = OptionalLong.empty();

  public RigOpening(PortAddress address, Ports ports, WhenAbsent absent, HostTime time) {
    this.address = address;
    this.ports = ports;
    this.absent = absent;
    this.finder = new RigFinder(ports, address, time);
  }

  /** What to do after the rig could not be opened. */
  public enum Step {
    /** Trying again is of no use: the person has to know. */
    GIVE_UP,
    /** It is there, or was: try again. */
    TRY_AGAIN,
    /** It was never there: wait for it. */
    AWAIT
  }

  /** The rig as the person names it. */
  public PortAddress address() {
    return address;
  }

  /** Whether it was open before. */
  public boolean known() {
    return lastingName.isPresent();
  }

  /**
   * Opens it.
   *
   * @param round is run now and then if that takes long
   * @throws PortException if it is not there, not unique, not permitted or in use
   */
  public ByteSource open(Runnable round) throws IOException {
    if (lastingName.isPresent()) {
      return ports.open(lastingName.get());
    }
    PortAddress found = finder.find(round);
    PortAddress lasting = ports.stable(found);
    ByteSource source = ports.open(found);
    lastingName = Optional.of(lasting);
    return source;
  }

  /**
   * What to do after {@link #open} threw {@code e}. A rig that was there once is tried for ever;
   * one that is not there is waited for if asked to; one that is there and cannot be opened is
   * given ten seconds if rigs are waited for.
   */
  public Step after(IOException e, long nowNanos) {
    if (!address.live()) {
      return Step.GIVE_UP;
    }
    if (known()) {
      return Step.TRY_AGAIN;
    }
    return absent == WhenAbsent.AWAITED ? afterFirst(reason(e), nowNanos) : Step.GIVE_UP;
  }

  private static PortException.Reason reason(IOException e) {
    return e instanceof PortException refusal ? refusal.reason() : PortException.Reason.OTHER;
  }

  private Step afterFirst(PortException.Reason reason, long nowNanos) {
    return switch (reason) {
      case NOT_FOUND -> {
        thereNanos = OptionalLong.empty();
        yield Step.AWAIT;
      }
      case NOT_A_PORT, AMBIGUOUS -> Step.GIVE_UP;
      case NO_PERMISSION, BUSY, OTHER -> settled(nowNanos) ? Step.GIVE_UP : Step.TRY_AGAIN;
    };
  }

  private boolean settled(long nowNanos) {
    if (thereNanos.isEmpty()) {
      thereNanos = OptionalLong.of(nowNanos);
    }
    return nowNanos - thereNanos.getAsLong() > SETTLING_NANOS;
  }
}
