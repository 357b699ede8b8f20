package snick.store.record;

import java.time.Instant;

/**
 * Something that went wrong, once or often.
 *
 * @param subject what it happened to, for example a device id
 * @param kind what happened, for example {@code link_lost}
 * @param detail how it was the last time, for people
 * @param count how often, 1 or more
 * @param first when it first happened
 * @param last when it last happened
 */
public record Fault(
    String subject, String kind, String detail, long count, Instant first, Instant last) {
  public Fault {
    if (count < 1) {
      throw new IllegalArgumentException("fault " + kind + " happened " + count + " times");
    }
  }
}
