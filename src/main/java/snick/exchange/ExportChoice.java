package snick.exchange;

import java.util.List;
import java.util.Optional;
import snick.store.CutSelection;

/**
 * What goes into a package.
 *
 * @param cuts which cuts
 * @param only of them only those with these ids; empty for no such limit
 * @param title title of the package, for people
 * @param licence the licence the person chose; empty if none
 * @param contributor name under which the person wants to be known; empty if none
 * @param personal whether operator, notes, reasons, and where bytes and masses came from go along
 */
public record ExportChoice(
    CutSelection cuts,
    List<Long> only,
    String title,
    Optional<Licence> licence,
    Optional<String> contributor,
    boolean personal) {
  private static final int LONGEST = 200;

  public ExportChoice {
    only = List.copyOf(only);
    requirePlain("title", title);
    contributor.ifPresent(name -> requirePlain("contributor", name));
  }

  private static void requirePlain(String what, String text) {
    boolean plain =
        !text.isBlank()
            && text.length() <= LONGEST
            && text.chars().noneMatch(Character::isISOControl);
    if (!plain) {
      throw new IllegalArgumentException(
          what + " of " + text.length() + " characters: 1 to 200 without control characters");
    }
  }

  /** Cuts of a selection, without licence, contributor or personal fields. */
  public static ExportChoice of(CutSelection cuts) {
    return new ExportChoice(
        cuts, List.of(), "Force traces of edges", Optional.empty(), Optional.empty(), false);
  }

  /** Only some cuts. */
  public ExportChoice only(List<Long> ids) {
    return new ExportChoice(cuts, ids, title, licence, contributor, personal);
  }

  /** With a title. */
  public ExportChoice titled(String text) {
    return new ExportChoice(cuts, only, text, licence, contributor, personal);
  }

  /** Under a licence. */
  public ExportChoice under(Licence chosen) {
    return new ExportChoice(cuts, only, title, Optional.of(chosen), contributor, personal);
  }

  /** From someone. */
  public ExportChoice from(String name) {
    return new ExportChoice(cuts, only, title, licence, Optional.of(name), personal);
  }

  /** With the personal fields. */
  public ExportChoice withPersonalFields() {
    return new ExportChoice(cuts, only, title, licence, contributor, true);
  }
}
