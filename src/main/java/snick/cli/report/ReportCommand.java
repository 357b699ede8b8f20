package snick.cli.report;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snick.cli.option.JudgeChoice;
import snick.cli.option.ReadingCommand;
import snick.cli.option.SessionChoice;
import snick.cli.terminal.NewFile;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Terminal;
import snick.journal.Session;
import snick.phrase.Words;
import snick.report.SessionReport;
import snick.store.SessionEvidence;
import snick.store.StoreReader;

/** Writes the report of a session. */
@Command(
    name = "report",
    description = {
      "Report a session from as found to finished: one HTML page that needs nothing from "
          + "elsewhere and prints on A4 and Letter, or Markdown for a forum post."
    },
    footer = {
      "  snick report -o latest.html",
      "  snick report --session evening -o evening.html",
      "  snick report --session evening --markdown",
      "",
      "Operator, notes and reasons stay out unless --personal."
    })
public final class ReportCommand extends ReadingCommand {
  @Mixin private SessionChoice chosen;

  @Option(
      names = {"-o", "--output"},
      paramLabel = "FILE",
      description =
          "New file to write to (default: standard output; on a terminal report-SESSION.html here).")
  private Optional<Path> file = Optional.empty();

  @Option(names = "--markdown", description = "As Markdown instead of HTML.")
  private boolean markdown;

  @Option(names = "--personal", description = "Include operator, notes and reasons.")
  private boolean personal;

  @Mixin private JudgeChoice judge;

  @Override
  protected void read(StoreReader store) {
    PrintWriter out = out();
    Session told = session(store);
    String text = text(store, told);
    Optional<Path> target = file.or(() -> markdown ? Optional.empty() : onTerminal(told));
    if (target.isPresent()) {
      NewFile.write(target.get(), text.getBytes(UTF_8));
      out.println(target.get() + ": session " + PlainText.inert(told.name()) + ".");
    } else {
      sayWhich(told);
      out.print(text);
      out.flush();
    }
  }

  /** A page of HTML is of no use on a terminal. */
  private static Optional<Path> onTerminal(Session told) {
    String name = told.name().replaceAll("[^\\p{L}\\d._-]+", "-");
    return Terminal.watchesOutput()
        ? Optional.of(Path.of("report-" + name + ".html"))
        : Optional.empty();
  }

  private Session session(StoreReader store) {
    return store.journal().session(chosen.toRead(store)).orElseThrow();
  }

  /** Beside the report, which goes to standard output. */
  private void sayWhich(Session told) {
    err().println("snick: session '" + PlainText.inert(told.name()) + "'");
  }

  private String text(StoreReader store, Session told) {
    SessionReport report =
        SessionReport.of(
            store,
            told.name(),
            judge.judge(data.settings(), store, SessionEvidence.read(store, told.name())),
            personal,
            Words.english());
    return markdown ? report.markdown() : report.html();
  }
}
