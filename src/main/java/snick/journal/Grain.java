package snick.journal;

import java.util.OptionalDouble;
import java.util.OptionalInt;
import snick.journal.name.Field;

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
