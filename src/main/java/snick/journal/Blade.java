package snick.journal;

import java.util.OptionalDouble;

/**
 * A blade under its owner's label.
 *
 * @param label own label, the key of the blade, 1 to 120 characters
 * @param steel as the owner calls it, may be empty, at most 120 characters
 * @param hardnessHrc Rockwell C hardness, 20 to 80 HRC
 * @param edgeAngleDegrees included angle of the edge, both sides together, 1 to 120 degrees
 * @param thicknessBehindEdgeMm thickness just behind the edge bevel, 0 to 20 mm
 * @param edgeLengthMm length of the edge from heel to tip, 1 to 2000 mm
 * @param notes free text, at most 4000 characters
 */
public record Blade(
    String label,
    String steel,
    OptionalDouble hardnessHrc,
    OptionalDouble edgeAngleDegrees,
    OptionalDouble thicknessBehindEdgeMm,
    OptionalDouble edgeLengthMm,
    String notes) {
  public Blade {
    label = Field.name("blade label", label);
    steel = steel.isBlank() ? "" : Field.name("steel", steel);
    Field.within("hardness", hardnessHrc, 20, 80, "HRC");
    Field.within("edge angle", edgeAngleDegrees, 1, 120, "degrees");
    Field.within("thickness behind the edge", thicknessBehindEdgeMm, 0, 20, "mm");
    Field.within("edge length", edgeLengthMm, 1, 2000, "mm");
    notes = Field.note("blade notes", notes);
  }

  /** A blade of which only the label is known. */
  public static Blade labelled(String label) {
    return new Blade(
        label,
        "",
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        "");
  }
}
