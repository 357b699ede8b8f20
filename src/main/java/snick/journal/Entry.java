package snick.journal;

import java.time.Instant;
import java.util.OptionalLong;
import snick.journal.name.Field;
import snick.phrase.NotAccepted;

/**
 * A journal record as it was written down. Entries are never changed or removed: a correction is a
 * further entry that names the one it replaces.
 *
 * @param id key, 1 or more, rising
 * @param recorded when it was written down
 * @param corrects id of the entry it replaces, smaller than {@code id}; empty if it is new
 * @param why reason for the correction; if it is new, why it came late, else empty text
 * @param content what was noted
 */
public record Entry<T>(long id, Instant recorded, OptionalLong corrects, String why, T content) {
  public Entry {
    if (id < 1
        || (corrects.isPresent() && !(corrects.getAsLong() >= 1 && corrects.getAsLong() < id))) {
      throw new NotAccepted("refused.cannot_correct", "entry", id, "earlier", corrects.getAsLong());
    }
    why =
        corrects.isPresent()
            ? Field.reason("reason for the correction", why)
            : Field.note("why", why);
  }

  /** A new entry that corrects none. */
  public static <T> Entry<T> of(long id, Instant recorded, T content) {
    return new Entry<>(id, recorded, OptionalLong.empty(), "", content);
  }

  /** A new entry that came late, for a reason. */
  public static <T> Entry<T> late(long id, Instant recorded, String why, T content) {
    return new Entry<>(
        id, recorded, OptionalLong.empty(), Field.reason("reason for a late entry", why), content);
  }

  /** An entry that replaces {@code earlier}, which stays. */
  public static <T> Entry<T> correcting(
      Entry<T> earlier, long id, Instant recorded, String why, T content) {
    return new Entry<>(id, recorded, OptionalLong.of(earlier.id()), why, content);
  }
}
