package snick.cli.report;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import snick.cli.option.DataDirectory;
import snick.cli.option.JudgeChoice;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.NewFile;
import snick.cli.terminal.PlainText;
import snick.journal.NotAccepted;
import snick.journal.Session;
import snick.report.SessionReport;
import snick.store.KeptStudy;
import snick.store.StoreReader;

/** Writes the report of a session. */
@Command(
    name = "report",
    mixinStandardHelpOptions = true,
    description = {
      "Report a session from as found to finished: one HTML page that needs nothing from "
          + "elsewhere and prints on A4 and Letter, or Markdown for a forum post."
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  snick report evening -o evening.html",
      "  snick report evening --markdown",
      "",
      "Operator, notes and reasons stay out unless --personal."
    })
public final class ReportCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(
      paramLabel = "SESSION",
      arity = "1",
      description = "Name of the session, as 'snick session list' shows it.")
  private String session;

  @Option(
      names = {"-o", "--output"},
      paramLabel = "FILE",
      description = "New file to write to (default: standard output).")
  private Optional<Path> file = Optional.empty();

  @Option(names = "--markdown", description = "As Markdown instead of HTML.")
  private boolean markdown;

  @Option(names = "--personal", description = "Take operator, notes and reasons along.")
  private boolean personal;

  @Mixin private JudgeChoice judge;
  @Mixin private DataDirectory data;

  @Override
  public Integer call() {
    String text = text();
    PrintWriter out = spec.commandLine().getOut();
    if (file.isPresent()) {
      NewFile.write(file.get(), text.getBytes(UTF_8));
      out.println(file.get() + ": session " + PlainText.inert(session) + ".");
    } else {
      out.print(text);
      out.flush();
    }
    return ExitCode.OK;
  }

  private String text() {
    try (StoreReader store = OpenedStore.toRead(data)) {
      Session known =
          store
              .journal()
              .session(session)
              .orElseThrow(
                  () ->
                      new NotAccepted(
                          "session '" + session + "' is not in the journal: snick session list"));
      SessionReport report =
          SessionReport.of(store, known.name(), judge.judge(KeptStudy.of(store, known)), personal);
      return markdown ? report.markdown() : report.html();
    }
  }
}
