package snick.store.record;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalInt;
import snick.journal.Stage;

/**
 * Which cuts are meant: those that meet every condition set. Immutable; start from {@link #all}.
 *
 * @param session only in the session of this name
 * @param stage only in the session's stage of this order
 * @param blade only in sessions with the blade of this label
 * @param countingOnly only those not set aside
 * @param from only those that occurred at or after this time
 * @param before only those that occurred before this time
 */
public record CutSelection(
    Optional<String> session,
    OptionalInt stage,
    Optional<String> blade,
    boolean countingOnly,
    Optional<Instant> from,
    Optional<Instant> before) {
  /** Every cut. */
  public static CutSelection all() {
    return new CutSelection(
        Optional.empty(),
        OptionalInt.empty(),
        Optional.empty(),
        false,
        Optional.empty(),
        Optional.empty());
  }

  /** Only those in the session called {@code name}. */
  public CutSelection inSession(String name) {
    return new CutSelection(Optional.of(name), stage, blade, countingOnly, from, before);
  }

  /** Only those in one stage of the session called {@code name}. */
  public CutSelection inStage(String name, Stage only) {
    return new CutSelection(
        Optional.of(name), OptionalInt.of(only.order()), blade, countingOnly, from, before);
  }

  /** Only those in sessions with the blade called {@code label}. */
  public CutSelection ofBlade(String label) {
    return new CutSelection(session, stage, Optional.of(label), countingOnly, from, before);
  }

  /** Only those not set aside. */
  public CutSelection counting() {
    return new CutSelection(session, stage, blade, true, from, before);
  }

  /** Only those that occurred at or after {@code time}. */
  public CutSelection from(Instant time) {
    return new CutSelection(session, stage, blade, countingOnly, Optional.of(time), before);
  }

  /** Only those that occurred before {@code time}. */
  public CutSelection before(Instant time) {
    return new CutSelection(session, stage, blade, countingOnly, from, Optional.of(time));
  }

  public boolean isByJournal() {
    return session.isPresent() || blade.isPresent();
  }
}
