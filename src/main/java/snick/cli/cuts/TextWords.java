package snick.cli.cuts;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snick.daemon.Pipeline;
import snick.frame.Form;
import snick.sample.StreamFacts;

/** What a recorded text was taken for, and what speaks against it, for people. */
final class TextWords {
  private static final int RESTARTS_TO_DOUBT = 3;
  private static final double MOST_REFUSED = 0.1;
  private static final double MOST_AT_A_RAIL = 0.1;

  private TextWords() {}

  static List<String> of(Pipeline pipeline) {
    List<String> words = new ArrayList<>();
    pipeline
        .decoder()
        .recognition()
        .ifPresent(
            told -> words.add(told + "; if that is wrong, say it: --columns time_ms,counts,-"));
    if (pipeline.form().equals(Optional.of(Form.TEXT))) {
      doubts(pipeline.stream().facts(), words);
      pipeline
          .decoder()
          .refused()
          .filter(line -> manyRefused(pipeline))
          .ifPresent(line -> words.add("a " + line.words()));
    }
    return words;
  }

  private static boolean manyRefused(Pipeline pipeline) {
    return pipeline.tally().thrownAway().malformed() > MOST_REFUSED * pipeline.tally().goodLines();
  }

  private static void doubts(StreamFacts facts, List<String> words) {
    if (facts.restarts() >= RESTARTS_TO_DOUBT) {
      words.add(
          "time goes back "
              + facts.restarts()
              + " times: hardly restarts; is the first column a time? If not: --columns counts,-");
    }
    if (facts.overrange() > MOST_AT_A_RAIL * facts.samples()) {
      words.add(
          facts.overrange()
              + " of "
              + facts.samples()
              + " readings stand at the end of the converter's range: a wire was open, or the code"
              + " is offset binary (--columns offset24)");
    }
  }
}
