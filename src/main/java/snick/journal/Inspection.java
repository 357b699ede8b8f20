package snick.journal;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.journal.name.Field;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/**
 * One look (or feel) for a burr.
 *
 * @param at when
 * @param stage name of the stage
 * @param look how it was looked at
 * @param side as seen from the spine with the tip away
 * @param place where along the edge; empty if all along it
 * @param finding what was found; it must fit the method
 * @param note free text, at most 4000 characters; with method free it must say what was done
 * @param photo a photo of what was seen, if there is one
 */
public record Inspection(
    Instant at,
    String stage,
    Look look,
    Side side,
    Optional<Place> place,
    Finding finding,
    String note,
    Optional<Photo> photo)
    implements StageEntry {
  /**
   * How an edge was looked at.
   *
   * @param method how
   * @param magnification 1 to 5000 times; with a magnifier it must be there, otherwise it must not
   */
  public record Look(Method method, OptionalDouble magnification) {
    public Look {
      Field.within("magnification", magnification, 1, 5000, "×");
      if (magnification.isPresent() != (method == Method.MAGNIFIER)) {
        throw magnification.isPresent()
            ? new NotAccepted(
                "refused.magnification_without_magnifier", "method", Phrase.named("method", method))
            : new NotAccepted("refused.magnifier_without_magnification");
      }
    }
  }

  public Inspection {
    stage = Field.name("stage name", stage);
    note = Field.note("inspection note", note);
    Method method = look.method();
    if (!finding.fits(method)) {
      throw new NotAccepted(
          Phrase.of("refused.finding_does_not_fit")
              .with("finding", Phrase.named("finding", finding))
              .with("method", Phrase.named("method", method))
              .with(
                  "allowed",
                  Phrase.of(
                      method == Method.THIN_PAPER ? "allowed.paper_finding" : "allowed.finding")));
    }
    if (method == Method.FREE && note.isBlank()) {
      throw new NotAccepted("refused.free_without_note");
    }
  }

  /** One without a photo. */
  public Inspection(
      Instant at,
      String stage,
      Look look,
      Side side,
      Optional<Place> place,
      Finding finding,
      String note) {
    this(at, stage, look, side, place, finding, note, Optional.empty());
  }

  /** The same with a photo, or without one. */
  public Inspection with(Optional<Photo> other) {
    return new Inspection(at, stage, look, side, place, finding, note, other);
  }

  /** Where it was looked, how, and what was found, in words of the catalog. */
  public Phrase told() {
    Phrase method = Phrase.named("method", look.method());
    Phrase side = Phrase.named("side", this.side);
    Phrase finding = Phrase.named("finding", this.finding);
    return place
        .map(
            p ->
                Phrase.of("seen.told_at")
                    .with("method", method)
                    .with("side", side)
                    .with("place", p.told())
                    .with("finding", finding))
        .orElseGet(
            () -> Phrase.of("seen.told", "method", method, "side", side, "finding", finding));
  }

  @Override
  public OptionalDouble placeMm() {
    return place.map(Place::millimetres).orElse(OptionalDouble.empty());
  }
}
