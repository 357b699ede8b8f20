package snick.exchange.write;

import java.util.List;
import java.util.Optional;
import snick.journal.name.Field;
import snick.phrase.NotAccepted;
import snick.store.record.CutSelection;

/**
 * What goes into a package.
 *
 * @param cuts which cuts
 * @param only of them only those with these ids; empty for no such limit
 * @param title title of the package, for people
 * @param licence the licence the person chose; empty if none
 * @param contributor name under which the person wants to be known; empty if none
 * @param ownOnly whether what came from others stays out
 * @param senderAgreed whether those who gave something without a licence agreed to this one
 * @param personal whether operator, notes, reasons, and where bytes and masses came from go along
 * @param photos whether photos go along, as they are
 */
public record ExportChoice(
    CutSelection cuts,
    List<Long> only,
    String title,
    Optional<Licence> licence,
    Optional<String> contributor,
    boolean ownOnly,
    boolean senderAgreed,
    boolean personal,
    boolean photos) {
  static final int LONGEST = 200;
  private static final String TITLE = "Force traces of edges";

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
      throw new NotAccepted(
          "refused.plain_text", "field", Field.called(what), "n", text.length(), "limit", LONGEST);
    }
  }

  /** Cuts of a selection, without licence, contributor or personal fields. */
  public static ExportChoice of(CutSelection cuts) {
    return new ExportChoice(
        cuts, List.of(), TITLE, Optional.empty(), Optional.empty(), false, false, false, false);
  }

  /** Only some cuts. */
  public ExportChoice only(List<Long> ids) {
    return new ExportChoice(
        cuts, ids, title, licence, contributor, ownOnly, senderAgreed, personal, photos);
  }

  /** With a title. */
  public ExportChoice titled(String text) {
    return new ExportChoice(
        cuts, only, text, licence, contributor, ownOnly, senderAgreed, personal, photos);
  }

  /** Under a licence. */
  public ExportChoice under(Licence chosen) {
    return new ExportChoice(
        cuts,
        only,
        title,
        Optional.of(chosen),
        contributor,
        ownOnly,
        senderAgreed,
        personal,
        photos);
  }

  /** From someone. */
  public ExportChoice from(String name) {
    return new ExportChoice(
        cuts, only, title, licence, Optional.of(name), ownOnly, senderAgreed, personal, photos);
  }

  /** With the personal fields. */
  public ExportChoice withPersonalFields() {
    return new ExportChoice(
        cuts, only, title, licence, contributor, ownOnly, senderAgreed, true, photos);
  }

  /** With photos. */
  public ExportChoice withPhotos() {
    return new ExportChoice(
        cuts, only, title, licence, contributor, ownOnly, senderAgreed, personal, true);
  }

  /** Without what came from others. */
  public ExportChoice withoutOthers() {
    return new ExportChoice(
        cuts, only, title, licence, contributor, true, senderAgreed, personal, photos);
  }

  /** With what others gave without a licence: they agreed to this one. */
  public ExportChoice asAgreed() {
    return new ExportChoice(
        cuts, only, title, licence, contributor, ownOnly, true, personal, photos);
  }

  /** Whether neither title, licence nor contributor was chosen. */
  boolean saysNothingOfItself() {
    return title.equals(TITLE) && licence.isEmpty() && contributor.isEmpty();
  }
}
