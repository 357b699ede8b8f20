package snick.journal;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import snick.phrase.NotAccepted;

/**
 * Entries in the order they were written, corrections among them. Immutable: {@link #with} gives a
 * longer ledger.
 */
public final class Ledger<T> {
  private final List<Entry<T>> entries;
  private final Map<Long, Entry<T>> correctedBy;

  private Ledger(List<Entry<T>> entries) {
    this.entries = List.copyOf(entries);
    this.correctedBy = corrections(this.entries);
  }

  /** A ledger without entries. */
  public static <T> Ledger<T> empty() {
    return new Ledger<>(List.of());
  }

  /**
   * A ledger of {@code entries} in order.
   *
   * @throws NotAccepted if ids do not rise, or a correction names an entry that is missing or
   *     already corrected
   */
  public static <T> Ledger<T> of(List<Entry<T>> entries) {
    return new Ledger<>(entries);
  }

  /** This ledger with {@code entry} at its end; throws as {@link #of}. */
  public Ledger<T> with(Entry<T> entry) {
    List<Entry<T>> longer = new ArrayList<>(entries);
    longer.add(entry);
    return new Ledger<>(longer);
  }

  /** Every entry ever written. */
  public List<Entry<T>> all() {
    return entries;
  }

  /** The entries that stand: those that none corrects. */
  public List<Entry<T>> standing() {
    return entries.stream().filter(e -> !correctedBy.containsKey(e.id())).toList();
  }

  /** What stands, without its ids. */
  public List<T> contents() {
    return standing().stream().map(Entry::content).toList();
  }

  /** The entry that replaced {@code id}, if one did. */
  public Optional<Entry<T>> correctionOf(long id) {
    return Optional.ofNullable(correctedBy.get(id));
  }

  private static <T> Map<Long, Entry<T>> corrections(List<Entry<T>> entries) {
    Map<Long, Entry<T>> correctedBy = new HashMap<>();
    Set<Long> known = new HashSet<>();
    long last = 0;
    for (Entry<T> entry : entries) {
      if (entry.id() <= last) {
        throw new NotAccepted("refused.ids_must_rise", "entry", entry.id(), "last", last);
      }
      last = entry.id();
      entry.corrects().ifPresent(earlier -> note(correctedBy, known, earlier, entry));
      known.add(entry.id());
    }
    return correctedBy;
  }

  private static <T> void note(
      Map<Long, Entry<T>> correctedBy, Set<Long> known, long earlier, Entry<T> entry) {
    if (!known.contains(earlier)) {
      throw new NotAccepted(
          "refused.corrects_what_is_not_here", "entry", entry.id(), "earlier", earlier);
    }
    if (correctedBy.putIfAbsent(earlier, entry) != null) {
      throw new NotAccepted(
          "refused.corrected_already", "entry", earlier, "later", correctedBy.get(earlier).id());
    }
  }
}
