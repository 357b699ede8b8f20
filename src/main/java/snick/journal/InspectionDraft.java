package snick.journal;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.journal.Inspection.Look;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/**
 * What was typed of an inspection; what is missing may come from the one before.
 *
 * @param method how, if said
 * @param magnification times, if said
 * @param side which side, if said
 * @param place where, if said
 * @param finding what was found, if said
 * @param note free text, may be empty
 */
public record InspectionDraft(
    Optional<Method> method,
    OptionalDouble magnification,
    Optional<Side> side,
    Optional<Place> place,
    Optional<Finding> finding,
    String note) {
  /**
   * The full inspection. A missing method (with its magnification) is taken from {@code previous};
   * paper without a side means both. Side, place and finding are never carried over: that would
   * record a look nobody took.
   *
   * @param at when
   * @param stage the running stage
   * @param previous the inspection before this one in the session, if any
   * @throws NotAccepted if something is missing or does not fit; the message lists what is allowed
   */
  public Inspection complete(Instant at, Stage stage, Optional<Inspection> previous) {
    Method how =
        method
            .or(this::methodOfFinding)
            .or(() -> previous.map(p -> p.look().method()))
            .orElseThrow(
                () ->
                    new NotAccepted(
                        "refused.method_missing", "allowed", Phrase.of("allowed.method")));
    OptionalDouble times =
        how == Method.MAGNIFIER && magnification.isEmpty()
            ? previous.map(p -> p.look().magnification()).orElse(OptionalDouble.empty())
            : magnification;
    return new Inspection(
        at, stage.name(), new Look(how, times), sideFor(how), place, findingSaid(how), note);
  }

  private Optional<Method> methodOfFinding() {
    boolean paper = finding.isPresent() && !finding.get().fits(Method.RAKING_LIGHT);
    return paper ? Optional.of(Method.THIN_PAPER) : Optional.empty();
  }

  private Side sideFor(Method how) {
    if (side.isEmpty() && how != Method.THIN_PAPER) {
      throw new NotAccepted("refused.side_missing", "allowed", Phrase.of("allowed.side"));
    }
    return side.orElse(Side.BOTH);
  }

  private Finding findingSaid(Method how) {
    return finding.orElseThrow(
        () ->
            new NotAccepted(
                Phrase.of("refused.finding_missing")
                    .with(
                        "allowed",
                        Phrase.of(
                            how == Method.THIN_PAPER
                                ? "allowed.paper_finding"
                                : "allowed.finding"))));
  }
}
