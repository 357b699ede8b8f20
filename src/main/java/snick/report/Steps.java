package snick.report;

import java.util.Optional;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Comparison;
import snick.verdict.statistic.Readings;

/** How a stage compares with the one before it. */
final class Steps {
  private Steps() {}

  /** Empty for the first stage, and unless both have two cuts or more. */
  static Optional<Comparison> comparison(SessionStory story, StageEvidence stage) {
    return story
        .before(stage)
        .flatMap(Steps::enough)
        .flatMap(before -> enough(stage).map(now -> story.judge().compare(before, now)));
  }

  private static Optional<Readings> enough(StageEvidence stage) {
    return stage.readings().filter(readings -> readings.count() >= 2);
  }
}
