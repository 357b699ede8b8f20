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
 * @param result the current result
 * @param force the current force of that result; empty if it has none
 * @param forceMissing why it had no force when it was recorded; empty if it had one
 * @param place the stage it belongs to; empty if none
 * @param setAside why it no longer counts; empty if it counts
 */
public record CutSummary(
    long id,
    long recordingId,
    int number,
    Instant occurredAt,
    int samples,
    Derivation result,
    Optional<StoredForce> force,
    Optional<String> forceMissing,
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
                      c -> c.cutForce().map(CutForce::calibrationId))),
              CutForce.ATTRIBUTES.stream().map(a -> a.ofSome(CutSummary::cutForce)),
              Stream.<Attribute<CutSummary>>of(
                  some("force_missing", "Why there is no force", CutSummary::missing),
                  some("session", "Session it belongs to", c -> c.place.map(CutPlace::session)),
                  some("stage", "Stage it belongs to", c -> c.place.map(p -> p.stage().name())),
                  Attribute.some(
                      "place_mm",
                      REAL,
                      "mm",
                      "Distance from the heel along the edge",
                      c -> c.place.flatMap(p -> p.placeMm().stream().boxed().findFirst())),
                  Attribute.truth(
                      "set_aside", "Whether it does not count", c -> c.setAside.isPresent()),
                  some("set_aside_reason", "Why it does not count", CutSummary::setAside)))
          .<Attribute<CutSummary>>flatMap(part -> part)
          .toList();

  private static Attribute<CutSummary> some(
      String name, String meaning, Function<CutSummary, Optional<?>> value) {
    return Attribute.some(name, TEXT, "", meaning, value);
  }

  /** The current force without what tells it from others. */
  private Optional<CutForce> cutForce() {
    return force.map(StoredForce::force);
  }

  /** What was found in its trace. */
  public CutFigures figures() {
    return result.figures();
  }

  /** Why there still is no force. */
  public Optional<String> missing() {
    return force.isEmpty() ? forceMissing : Optional.empty();
  }
}
