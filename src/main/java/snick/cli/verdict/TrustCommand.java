package snick.cli.verdict;

import java.io.PrintWriter;
import java.util.List;
import java.util.Map;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snick.cli.option.JudgeChoice;
import snick.cli.option.ReadingCommand;
import snick.cli.terminal.Figures;
import snick.cli.terminal.Said;
import snick.cli.terminal.Table;
import snick.journal.Session;
import snick.json.Json;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.verdict.burr.CheckTrust;
import snick.verdict.burr.StageEvidence;

/** How far each inspection method can be believed. */
@Command(
    name = "trust",
    description = {
      "Over all sessions: how often each way of looking said 'none' where a later look by another"
          + " way, or deburring of no finer grain, showed that a burr had been hidden; exact"
          + " binomial intervals. A force that fell after a finer step is a hidden burr or"
          + " refinement; the two cannot be told apart, so it does not count."
    },
    footer = {"  snick trust", "  snick trust --json"})
public final class TrustCommand extends ReadingCommand {
  private static final int MOST_SESSIONS = 100_000;

  @Mixin private JudgeChoice judge;

  @Option(names = "--json", description = "One JSON object a line for each method.")
  private boolean json;

  @Override
  protected void read(StoreReader store) {
    List<CheckTrust> trust = CheckTrust.of(sessions(store), judge.judge(data.settings()));
    tellEach(
        json,
        trust,
        TrustCommand::object,
        "No inspection has said 'none' yet. Note what you look at: snick inspect --help",
        () -> print(trust, out()));
  }

  private static List<List<StageEvidence>> sessions(StoreReader store) {
    return store.journal().latestSessions(MOST_SESSIONS).stream()
        .map(Session::name)
        .map(name -> SessionEvidence.read(store, name).stages())
        .toList();
  }

  private static void print(List<CheckTrust> trust, PrintWriter out) {
    table(trust).print(out);
    out.println();
    out.println("Counted: " + Said.of(trust.get(0).reason().rule()) + ";");
    out.println("  " + Said.of(trust.get(0).reason().source()) + ".");
  }

  private static Table table(List<CheckTrust> trust) {
    Table table =
        new Table(
            "METHOD",
            ">COUNTED NONE",
            ">MISSED",
            ">SHARE",
            ">95 % INTERVAL",
            ">BURR OR REFINED",
            ">NOT JUDGED");
    for (CheckTrust check : trust) {
      table.row(
          check.method().plain(),
          check.saidNone(),
          check.missed(),
          check.saidNone() == 0 ? "-" : Figures.percent((double) check.missed() / check.saidNone()),
          check
              .missedShare()
              .map(i -> Figures.percent(i.low()) + " to " + Figures.percent(i.high()))
              .orElse("-"),
          check.unclear(),
          check.notJudged());
    }
    return table;
  }

  private static Map<String, Object> object(CheckTrust check) {
    return Json.object(
        "method", check.method().word(),
        "said_none", check.saidNone(),
        "missed", check.missed(),
        "missed_share_ci95", ComparisonJson.ends(check.missedShare()),
        "burr_or_refined", check.unclear(),
        "not_judged", check.notJudged(),
        "reason", Said.raw(check.reason().text()));
  }
}
