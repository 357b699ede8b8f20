package snick.journal;

import java.time.Instant;
import java.util.OptionalDouble;

/** Something noted in a stage of a session. */
public sealed interface StageEntry permits SharpeningStep, Inspection, CutPlacement, Withdrawn {
  /** When it was noted. */
  Instant at();

  /** Name of the stage it belongs to. */
  String stage();

  /** Where along the edge, mm from the heel; empty if it has no such place or none was noted. */
  default OptionalDouble placeMm() {
    return OptionalDouble.empty();
  }
}
