package snick.cli.journal;

import java.io.PrintWriter;
import java.util.Optional;
import snick.cli.option.DataDirectory;
import snick.cli.option.JudgeChoice;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Said;
import snick.cli.terminal.ShellWord;
import snick.phrase.Phrase;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.verdict.Coach;
import snick.verdict.burr.StageEvidence;
import snick.verdict.comparison.Judge;

/** The stage that runs, and what to do next in one line. */
public final class Advice {
  private Advice() {}

  /** What to do next, by the margin of blade or settings. */
  public static void print(
      PrintWriter out, DataDirectory data, SessionEvidence session, StoreReader store) {
    Judge judge = new JudgeChoice().judge(data.settings(), store, session);
    Optional<Phrase> advice = advice(session, judge);
    out.println(data.in(stage(session.last()) + place(session, advice)));
    out.println("Next: " + PlainText.inert(data.in(line(session, judge))));
  }

  /** What to do next; a closed session asks for nothing. */
  public static String line(SessionEvidence session, Judge judge) {
    return advice(session, judge)
        .map(Said::raw)
        .orElseGet(
            () ->
                "the session is closed; begin another: snick session start --blade "
                    + ShellWord.of(session.blade().label()));
  }

  private static Optional<Phrase> advice(SessionEvidence session, Judge judge) {
    return session.log().session().closed().isPresent()
        ? Optional.empty()
        : Optional.of(new Coach(judge).advise(session.stages(), session.nextPlace()));
  }

  /** Where the next cut goes, unless the advice says so or nothing runs. */
  private static String place(SessionEvidence session, Optional<Phrase> advice) {
    return advice.filter(said -> !Coach.saysPlace(said)).isPresent()
        ? "; " + JournalText.next(session.nextPlace())
        : "";
  }

  private static String stage(Optional<StageEvidence> running) {
    return running
        .map(
            s ->
                PlainText.inert(
                    "stage %s '%s', %s"
                        .formatted(
                            s.stage().order(),
                            s.stage().name(),
                            s.cuts().size() == 1 ? "1 cut" : s.cuts().size() + " cuts")))
        .orElse("no stage yet: snick stage NAME");
  }
}
