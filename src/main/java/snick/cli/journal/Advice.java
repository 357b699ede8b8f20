package snick.cli.journal;

import java.io.PrintWriter;
import java.util.Optional;
import snick.cli.option.DataDirectory;
import snick.cli.option.JudgeChoice;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.ShellWord;
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
    String advice = line(session, judge);
    out.println(data.in(stage(session.last()) + place(session, advice)));
    out.println("Next: " + PlainText.inert(data.in(advice)));
  }

  /** What to do next; a closed session asks for nothing. */
  public static String line(SessionEvidence session, Judge judge) {
    return session.log().session().closed().isPresent()
        ? "the session is closed; begin another: snick session start --blade "
            + ShellWord.of(session.blade().label())
        : new Coach(judge).advise(session.stages(), session.nextPlace());
  }

  /** Where the next cut goes, unless the advice says so or nothing runs. */
  private static String place(SessionEvidence session, String advice) {
    boolean said = advice.contains("the next one at");
    return said || session.log().session().closed().isPresent()
        ? ""
        : "; " + JournalText.next(session.nextPlace());
  }

  private static String stage(Optional<StageEvidence> running) {
    return running
        .map(
            s ->
                PlainText.inert(
                    "stage "
                        + s.stage().order()
                        + " '"
                        + s.stage().name()
                        + "', "
                        + (s.cuts().size() == 1 ? "1 cut" : s.cuts().size() + " cuts")))
        .orElse("no stage yet: snick stage NAME");
  }
}
