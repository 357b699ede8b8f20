package snick.journal;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import snick.journal.name.Field;

/**
 * Work done on the edge: what made a stage out of the one before it.
 *
 * @param at when it was noted
 * @param stage name of the stage that it led to
 * @param abrasive free, for example ceramic rod or leather strop, 1 to 120 characters
 * @param grain how fine it is
 * @param direction which way the edge moved
 * @param strokesPerSide 0 to 100 000
 * @param pressure how light
 * @param note free text, at most 4000 characters
 */
public record SharpeningStep(
    Instant at,
    String stage,
    String abrasive,
    Grain grain,
    Optional<EdgeDirection> direction,
    OptionalInt strokesPerSide,
    Optional<Pressure> pressure,
    String note)
    implements StageEntry {
  /**
   * How fine an abrasive is.
   *
   * @param grit grit number as printed on it, 1 to 100 000
   * @param micron grain size, 0.01 to 2000 µm
   */
  public record Grain(OptionalInt grit, OptionalDouble micron) {
    public Grain {
      Field.within("grit", grit, 1, 100_000);
      Field.within("grain size", micron, 0.01, 2000, "µm");
    }
  }

  public SharpeningStep {
    stage = Field.name("stage name", stage);
    abrasive = Field.name("abrasive", abrasive);
    Field.within("strokes per side", strokesPerSide, 0, 100_000);
    note = Field.note("step note", note);
  }
}
