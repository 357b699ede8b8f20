package snick.store.record;

import static snick.quantity.Attribute.Type.REAL;
import static snick.quantity.Attribute.Type.TEXT;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import snick.cut.CutFigures;
import snick.quantity.Attribute;

/**
 * A stored cut without its trace, for lists.
 *
 * @param id its id, given once and never again
 * @param recordingId the recording it belongs to
 * @param number its number in the recording, from 1
 * @param occurredAt host time of the break, or of the onset if it did not break
 * @param samples samples in its trace
 * @param standing the current result, with its current force
 * @param place the stage it belongs to; empty if none
 * @param setAside why it no longer counts; empty if it counts
 */
public record CutSummary(
    long id,
    long recordingId,
    int number,
    Instant occurredAt,
    int samples,
    Standing standing,
    Optional<CutPlace> place,
    Optional<String> setAside) {
  /** All of it. Every JSON object and page that tells of a stored cut follows this list. */
  public static final List<Attribute<CutSummary>> ATTRIBUTES =
      Stream.of(
              Stream.of(
                  Attribute.large("id", "Number in the store", CutSummary::id),
                  Attribute.large(
                      "recording", "Number of its recording in the store", CutSummary::recordingId),
                  Attribute.whole(
                      "cut", "Number of the cut in its recording, from 1", CutSummary::number),
                  Attribute.time(
                      "occurred_at",
                      "Host time of the break, or of the onset if it did not break",
                      CutSummary::occurredAt),
                  Attribute.whole("samples", "Samples in its trace", CutSummary::samples)),
              Derivation.ATTRIBUTES.stream().map(a -> a.of(CutSummary::result)),
              Stream.<Attribute<CutSummary>>of(
                  some(
                      "calibration",
                      "Calibration that gives the force",
                      c -> c.force().map(CutForce::calibrationId))),
              CutForce.ATTRIBUTES.stream().map(a -> a.ofSome(CutSummary::force)),
              Stream.<Attribute<CutSummary>>of(
                  some("force_missing", "Why there is no force", c -> c.standing.missing()),
                  some("session", "Session it belongs to", c -> c.place.map(CutPlace::session)),
                  some("stage", "Stage it belongs to", c -> c.place.map(p -> p.stage().name())),
                  Attribute.some(
                      "place_mm",
                      REAL,
                      "mm",
                      "Distance from the heel along the edge",
                      c -> c.place.map(CutPlace::placeMm)),
                  Attribute.truth(
                      "set_aside", "Whether it does not count", c -> c.setAside.isPresent()),
                  some("set_aside_reason", "Why it does not count", CutSummary::setAside)))
          .<Attribute<CutSummary>>flatMap(part -> part)
          .toList();

  private static Attribute<CutSummary> some(
      String name, String meaning, Function<CutSummary, Optional<?>> value) {
    return Attribute.some(name, TEXT, "", meaning, value);
  }

  /**
   * What stands of a cut.
   *
   * @param result the current result
   * @param force the current force of that result; empty if it has none
   * @param missingAtFirst why it had no force when it was recorded; empty if it had one
   */
  public record Standing(
      Derivation result, Optional<CutForce> force, Optional<String> missingAtFirst) {
    /** Why there still is no force. */
    public Optional<String> missing() {
      return force.isEmpty() ? missingAtFirst : Optional.empty();
    }
  }

  /** The current result. */
  public Derivation result() {
    return standing.result();
  }

  /** The current force; empty if it has none. */
  public Optional<CutForce> force() {
    return standing.force();
  }

  /** What was found in its trace. */
  public CutFigures figures() {
    return result().figures();
  }
}
