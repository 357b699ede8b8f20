package snick.verdict.burr;

import java.util.List;
import snick.phrase.Phrase;
import snick.quantity.Worded;
import snick.verdict.comparison.Reason;

/**
 * Whether a burr is left: a sum of evidence, laid open. Common practice, no source.
 *
 * @param burr the outcome
 * @param clues all evidence looked at, also what says nothing
 * @param rule how the clues gave the outcome
 * @param nextCheck the cheapest check not yet made
 */
public record BurrVerdict(Burr burr, List<BurrClue> clues, Reason rule, Phrase nextCheck) {
  /** Outcome. */
  public enum Burr implements Worded {
    LIKELY,
    POSSIBLE,
    NOT_INDICATED,
    /** Nothing speaks for or against one: nobody looked, or the looks were unsure. */
    NOT_KNOWN;
  }

  public BurrVerdict {
    clues = List.copyOf(clues);
  }

  /** Clues that say {@code says}. */
  public List<BurrClue> saying(BurrClue.Says says) {
    return clues.stream().filter(c -> c.says() == says).toList();
  }
}
