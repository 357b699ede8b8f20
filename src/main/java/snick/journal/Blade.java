package snick.journal;

import java.util.OptionalDouble;
import snick.journal.name.Field;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/**
 * A blade under its owner's label.
 *
 * @param label own label, the key of the blade, 1 to 120 characters
 * @param steel as the owner calls it, may be empty, at most 120 characters
 * @param hardnessHrc Rockwell C hardness, 20 to 80 HRC
 * @param edgeAngleDegrees included angle of the edge, both sides together, 1 to 120 degrees
 * @param thicknessBehindEdgeMm thickness just behind the edge bevel, 0 to 20 mm
 * @param edgeLengthMm length of the edge from heel to tip, 1 to 2000 mm
 * @param marginGf largest difference in force that does not matter to its owner, above 0 to 1000 gf
 * @param notes free text, at most 4000 characters
 */
public record Blade(
    String label,
    String steel,
    OptionalDouble hardnessHrc,
    OptionalDouble edgeAngleDegrees,
    OptionalDouble thicknessBehindEdgeMm,
    OptionalDouble edgeLengthMm,
    OptionalDouble marginGf,
    String notes) {
  /** Least margin, gf. */
  public static final double LEAST_MARGIN_GF = 0.01;

  /** Most margin, gf. */
  public static final double MOST_MARGIN_GF = 1000;

  public Blade {
    label = Field.name("blade label", label);
    steel = steel.isBlank() ? "" : Field.name("steel", steel);
    Field.within("hardness", hardnessHrc, 20, 80, "HRC");
    Field.within("edge angle", edgeAngleDegrees, 1, 120, "°");
    Field.within("thickness behind the edge", thicknessBehindEdgeMm, 0, 20, "mm");
    Field.within("edge length", edgeLengthMm, 1, 2000, "mm");
    Field.within("margin", marginGf, LEAST_MARGIN_GF, MOST_MARGIN_GF, "gf");
    notes = Field.note("blade notes", notes);
  }

  /** A blade of which only the label is known. */
  public static Blade labelled(String label) {
    OptionalDouble unknown = OptionalDouble.empty();
    return new Blade(label, "", unknown, unknown, unknown, unknown, unknown, "");
  }

  /** This blade under another label. */
  public Blade withLabel(String newLabel) {
    return with(newLabel, steel, edgeLengthMm, marginGf, notes);
  }

  /** This blade of another steel, as its owner calls it; empty: not noted. */
  public Blade withSteel(String newSteel) {
    return with(label, newSteel, edgeLengthMm, marginGf, notes);
  }

  /** This blade with an edge of another length, mm. */
  public Blade withEdgeLength(double lengthMm) {
    return with(label, steel, OptionalDouble.of(lengthMm), marginGf, notes);
  }

  /** This blade with another margin, gf; empty: as for all blades. */
  public Blade withMargin(OptionalDouble gramForce) {
    return with(label, steel, edgeLengthMm, gramForce, notes);
  }

  /** What is measured of it, without what its owner wishes and writes. */
  public Blade facts() {
    return with(label, steel, edgeLengthMm, OptionalDouble.empty(), "");
  }

  /** Hardness, angle and thickness stay. */
  private Blade with(
      String newLabel,
      String newSteel,
      OptionalDouble lengthMm,
      OptionalDouble margin,
      String newNotes) {
    return new Blade(
        newLabel,
        newSteel,
        hardnessHrc,
        edgeAngleDegrees,
        thicknessBehindEdgeMm,
        lengthMm,
        margin,
        newNotes);
  }

  /**
   * That a place lies on its edge, if the length of that is known.
   *
   * @param placeMm distance from the heel, mm
   * @throws NotAccepted if it does not; the message gives the range
   */
  public void requireOnEdge(double placeMm) {
    if (edgeLengthMm.isPresent() && placeMm > edgeLengthMm.getAsDouble()) {
      throw new NotAccepted(
          Phrase.of("refused.off_the_edge")
              .with("mm", PlaceWords.plainNumber(placeMm))
              .with("blade", label)
              .with("length", PlaceWords.plainNumber(edgeLengthMm.getAsDouble())));
    }
  }
}
