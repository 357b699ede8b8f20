package snick.store.record;

import java.time.Instant;
import java.util.Optional;

/**
 * One version of something in the journal, as another journal has it.
 *
 * @param recorded when it was written down; empty if that is not known
 * @param why why it replaced the version before; empty text for the first
 * @param content what was noted
 */
public record Version<T>(Optional<Instant> recorded, String why, T content) {
  /** The only version known. */
  public static <T> Version<T> only(T content) {
    return new Version<>(Optional.empty(), "", content);
  }
}
