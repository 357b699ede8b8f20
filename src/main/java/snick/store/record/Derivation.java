package snick.store.record;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import snick.cut.Cut;
import snick.cut.CutFigures;
import snick.quantity.Attribute;

/**
 * What one version of the detector made of a cut's trace.
 *
 * @param id tells it from the cut's other results in the store, 0 for the first; the one with the
 *     largest id is current
 * @param detectorVersion {@link Cut#DETECTOR_VERSION} of the program that made it
 * @param createdAt when it was made
 * @param figures what was found
 * @param responseId id of the response of the rig that it was derived with; empty if none was known
 */
public record Derivation(
    long id,
    int detectorVersion,
    Instant createdAt,
    CutFigures figures,
    Optional<String> responseId) {
  /** The figures, and what made them. */
  public static final List<Attribute<Derivation>> ATTRIBUTES =
      Stream.concat(
              CutFigures.ATTRIBUTES.stream().map(a -> a.of(Derivation::figures)),
              Stream.<Attribute<Derivation>>of(
                  Attribute.whole(
                      "detector_version",
                      "Version of the detector that found this",
                      Derivation::detectorVersion),
                  Attribute.some(
                      "response",
                      Attribute.Type.TEXT,
                      "",
                      "Response of the rig that it was derived with; none: nothing was known",
                      Derivation::responseId)))
          .toList();

  /** A result that is not stored yet. */
  public Derivation(int detectorVersion, Instant createdAt, Cut cut) {
    this(
        0,
        detectorVersion,
        createdAt,
        cut.figures(),
        cut.response().known() ? Optional.of(cut.response().id()) : Optional.empty());
  }

  /** Made by this program. */
  public static Derivation own(Cut cut, Instant createdAt) {
    return new Derivation(Cut.DETECTOR_VERSION, createdAt, cut);
  }
}
