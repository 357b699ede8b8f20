package snick.exchange.write;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import snick.journal.name.Field;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.store.record.CutSelection;

/**
 * What goes into a package.
 *
 * @param cuts which cuts
 * @param only of them only those with these ids; empty for no such limit
 * @param about what it says of itself
 * @param wishes what else the person wants
 */
public record ExportChoice(CutSelection cuts, List<Long> only, About about, Set<Wish> wishes) {
  static final int LONGEST = 200;
  private static final String TITLE = "Force traces of edges";

  /** What a person may want of a package. */
  public enum Wish {
    /** What came from others stays out. */
    OWN_ONLY,
    /** Those who gave something without a licence agreed to this one. */
    SENDERS_AGREED,
    /** Operator, notes, reasons, and where bytes and masses came from go along. */
    PERSONAL,
    /** Photos go along, as they are. */
    PHOTOS
  }

  /**
   * What a package says of itself.
   *
   * @param title its title, for people
   * @param licence the licence the person chose; empty if none
   * @param contributor name under which the person wants to be known; empty if none
   */
  public record About(String title, Optional<Licence> licence, Optional<String> contributor) {
    public About {
      requirePlain("title", title);
      contributor.ifPresent(name -> requirePlain("contributor", name));
    }

    private static void requirePlain(String what, String text) {
      boolean plain =
          !text.isBlank()
              && text.length() <= LONGEST
              && text.chars().noneMatch(Character::isISOControl);
      if (!plain) {
        throw new NotAccepted(
            Phrase.of("refused.plain_text")
                .with("field", Field.called(what))
                .with("n", text.length())
                .with("limit", LONGEST));
      }
    }

    /** Whether nothing of it was chosen. */
    boolean isEmpty() {
      return title.equals(TITLE) && licence.isEmpty() && contributor.isEmpty();
    }
  }

  public ExportChoice {
    only = List.copyOf(only);
    wishes = Set.copyOf(wishes);
  }

  /** Cuts of a selection, without licence, contributor or personal fields. */
  public static ExportChoice of(CutSelection cuts) {
    return new ExportChoice(
        cuts, List.of(), new About(TITLE, Optional.empty(), Optional.empty()), Set.of());
  }

  private ExportChoice with(About other) {
    return new ExportChoice(cuts, only, other, wishes);
  }

  /** Only some cuts. */
  public ExportChoice only(List<Long> ids) {
    return new ExportChoice(cuts, ids, about, wishes);
  }

  /** With a title. */
  public ExportChoice titled(String text) {
    return with(new About(text, about.licence, about.contributor));
  }

  /** Under a licence. */
  public ExportChoice under(Licence chosen) {
    return with(new About(about.title, Optional.of(chosen), about.contributor));
  }

  /** From someone. */
  public ExportChoice from(String name) {
    return with(new About(about.title, about.licence, Optional.of(name)));
  }

  /** With one wish more. */
  public ExportChoice with(Wish wish) {
    Set<Wish> more = EnumSet.of(wish);
    more.addAll(wishes);
    return new ExportChoice(cuts, only, about, more);
  }

  /** Whether the person wants this. */
  boolean has(Wish wish) {
    return wishes.contains(wish);
  }
}
