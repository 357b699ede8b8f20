package snick.journal.name;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/**
 * The names of one kind of thing in the journal, and what a typed one means.
 *
 * @param kind a field of the catalog, for example {@code blade}
 * @param names as they stand
 * @param next what to type to see or add one, for a message
 */
public record KnownNames(String kind, List<String> names, Phrase next) {
  public KnownNames {
    names = List.copyOf(names);
  }

  /**
   * The name that {@code typed} stands for: the same, whatever its case, else the only one that
   * begins so.
   *
   * @throws NotAccepted if there is none or more than one; the message gives those near
   */
  public String meant(String typed) {
    return same(typed).or(() -> onlyBeginning(typed)).orElseThrow(() -> unknown(typed));
  }

  /** The name that is {@code typed}, in its own case if there is one, else in any. */
  public Optional<String> same(String typed) {
    String name = typed.strip();
    return names.contains(name)
        ? Optional.of(name)
        : names.stream().filter(name::equalsIgnoreCase).findFirst();
  }

  private Optional<String> onlyBeginning(String typed) {
    String begin = typed.strip();
    List<String> found =
        begin.isEmpty() ? List.of() : names.stream().filter(n -> begins(n, begin)).toList();
    if (found.size() > 1) {
      throw new NotAccepted(
          Phrase.of("refused.beginning_of")
              .with("kind", Field.called(kind))
              .with("typed", Field.shown(begin))
              .with("names", listed(found)));
    }
    return found.stream().findFirst();
  }

  private static boolean begins(String name, String begin) {
    return name.regionMatches(true, 0, begin, 0, begin.length());
  }

  /** That {@code typed} is none of the names, with those near. */
  public NotAccepted unknown(String typed) {
    return new NotAccepted(
        Phrase.of("refused.not_in_journal")
            .with("kind", Field.called(kind))
            .with("typed", Field.shown(typed.strip()))
            .with("near", NearNames.question(NearNames.of(typed, names)))
            .with("next", next));
  }

  /**
   * Asks back if {@code typed}, a name to be added, is likely one that is there, misspelt or cut
   * short. One that is there as it is, is none.
   *
   * @throws SlipOfName if so
   */
  public void requireNoSlip(String typed) {
    if (names.contains(typed.strip())) {
      return;
    }
    List<String> cutShort = names.stream().filter(n -> begins(n, typed.strip())).toList();
    SlipOfName.throwIfAny(
        kind, typed, cutShort.isEmpty() ? NearNames.slipsOf(typed, names) : cutShort);
  }

  private static Object listed(List<String> names) {
    int most = 5;
    String some =
        names.stream().limit(most).map(n -> "'" + n + "'").collect(Collectors.joining(", "));
    return names.size() > most
        ? Phrase.of("near.and_more", "some", some, "n", names.size() - most)
        : some;
  }
}
