package snick.store.record;

import java.util.OptionalInt;
import snick.journal.StageEntry;

/**
 * An entry of a session as another journal has it.
 *
 * @param version what was noted, when and why
 * @param corrects place of the entry it replaces in the list of entries, from 1; empty if it is new
 */
public record Noted(Version<StageEntry> version, OptionalInt corrects) {
  /** An entry that replaces none. */
  public static Noted of(StageEntry content) {
    return new Noted(Version.only(content), OptionalInt.empty());
  }
}
