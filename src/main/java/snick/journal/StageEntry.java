package snick.journal;

import java.time.Instant;

/** Something noted in a stage of a session. */
public sealed interface StageEntry permits SharpeningStep, Inspection, CutPlacement, Withdrawn {
  /** When it was noted. */
  Instant at();

  /** Name of the stage it belongs to. */
  String stage();
}
