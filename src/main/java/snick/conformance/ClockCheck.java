package snick.conformance;

import java.util.Locale;
import java.util.Optional;
import snick.frame.message.MessageType;

/** The device's clock against the host's: two moments, each known by the fastest of some pings. */
final class ClockCheck {
  private static final int PINGS = 5;
  private static final double TOLERANCE = 0.01;
  private static final long MASK_32 = 0xFFFF_FFFFL;

  private final Conversation talk;
  private final Findings findings;
  private Optional<Reply> before = Optional.empty();

  ClockCheck(Conversation talk, Findings findings) {
    this.talk = talk;
    this.findings = findings;
  }

  void begin() {
    before = fastestPing();
  }

  void end() {
    Optional<Reply> after = fastestPing();
    if (before.isEmpty() || after.isEmpty()) {
      findings.judge(Condition.CLOCK, false, "no answer to ping");
      return;
    }
    long deviceMicros = after.get().deviceMicros() - before.get().deviceMicros() & MASK_32;
    double hostMicros = (middleNanos(after.get()) - middleNanos(before.get())) / 1e3;
    double error = deviceMicros / hostMicros - 1;
    findings.judge(
        Condition.CLOCK,
        error >= -TOLERANCE && error <= TOLERANCE,
        String.format(Locale.ROOT, "%+.3f %% in %.1f s", error * 100, hostMicros / 1e6));
  }

  private static long middleNanos(Reply reply) {
    return reply.sentNanos() + reply.roundTripNanos() / 2;
  }

  private Optional<Reply> fastestPing() {
    Optional<Reply> fastest = Optional.empty();
    for (int i = 0; i < PINGS; i++) {
      Reply reply = talk.ask(MessageType.PING, 0);
      if (reply.came()
          && (fastest.isEmpty() || reply.roundTripNanos() < fastest.get().roundTripNanos())) {
        fastest = Optional.of(reply);
      }
    }
    return fastest;
  }
}
