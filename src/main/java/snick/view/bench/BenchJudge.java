package snick.view.bench;

import java.util.Optional;
import java.util.OptionalDouble;
import snick.journal.Margin;
import snick.phrase.NotAccepted;
import snick.store.KeptStudy;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.verdict.comparison.Judge;
import snick.verdict.comparison.RigRepeatability;

/** What the page measures verdicts by: the blade's margin, else the usual one, and the rig. */
public final class BenchJudge {
  private BenchJudge() {}

  /** The judge of {@code session}, read by {@code reader}. */
  public static Judge of(Bench bench, StoreReader reader, SessionEvidence session) {
    OptionalDouble usual = bench.preferences().marginGf();
    return Judge.of(
        Margin.of(OptionalDouble.empty(), session.blade(), usual), study(bench, reader, session));
  }

  /** A kept study that cannot be read is left out and said. */
  private static Optional<RigRepeatability> study(
      Bench bench, StoreReader reader, SessionEvidence session) {
    try {
      return KeptStudy.of(reader, session.measured());
    } catch (NotAccepted e) {
      bench.complain().accept(e.why());
      return Optional.empty();
    }
  }
}
