package snick.journal;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.journal.name.Field;
import snick.journal.name.NotAccepted;

/**
 * One look (or feel) for a burr.
 *
 * @param at when
 * @param stage name of the stage
 * @param method how
 * @param magnification 1 to 5000 times; with a magnifier it must be there, otherwise it must not
 * @param side as seen from the spine with the tip away
 * @param place where along the edge; empty if all along it
 * @param finding what was found; it must fit the method
 * @param note free text, at most 4000 characters; with method free it must say what was done
 */
public record Inspection(
    Instant at,
    String stage,
    Method method,
    OptionalDouble magnification,
    Side side,
    Optional<Place> place,
    Finding finding,
    String note)
    implements StageEntry {
  public Inspection {
    stage = Field.name("stage name", stage);
    note = Field.note("inspection note", note);
    checkMagnification(method, magnification);
    if (!finding.fits(method)) {
      throw new NotAccepted(
          "finding '"
              + finding.plain()
              + "' does not fit "
              + method.plain()
              + ": "
              + fitting(method));
    }
    if (method == Method.FREE && note.isBlank()) {
      throw new NotAccepted("a free inspection needs a note that says what was done");
    }
  }

  @Override
  public OptionalDouble placeMm() {
    return place.map(Place::millimetres).orElse(OptionalDouble.empty());
  }

  private static void checkMagnification(Method method, OptionalDouble magnification) {
    Field.within("magnification", magnification, 1, 5000, "times");
    if (magnification.isPresent() != (method == Method.MAGNIFIER)) {
      throw new NotAccepted(
          magnification.isPresent()
              ? "magnification goes with a magnifier, not with " + method.plain()
              : "a magnifier needs its magnification: write it as 10x");
    }
  }

  private static String fitting(Method method) {
    return method == Method.THIN_PAPER
        ? "use clean, catches, tears, will not start or unsure"
        : "use burr, none or unsure";
  }
}
