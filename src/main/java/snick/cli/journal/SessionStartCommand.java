package snick.cli.journal;

import java.io.PrintWriter;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.Optional;
import java.util.OptionalDouble;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.NotingCommand;
import snick.cli.option.OpenedJournal;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.ShellWord;
import snick.journal.Session;
import snick.journal.Session.Equipment;
import snick.store.JournalReader;
import snick.store.SessionEvidence;

/** Opens a session and begins its first stage. */
@Command(
    name = "start",
    description = {
      "Open a session and begin its first stage; cuts recorded from now on land in it.",
      "A blade that is not known yet is added; if it may be a slip, you are asked first."
    },
    footerHeading = "%nExamples (invented):%n",
    footer = {
      "  snick session start --blade kitchen-1",
      "  snick session start evening --blade kitchen-1 --lot spool-b \\",
      "    --room 21 --operator me",
    })
final class SessionStartCommand extends NotingCommand {
  @Parameters(
      arity = "0..1",
      paramLabel = "NAME",
      description = "Name of the session, new (default: blade and time).")
  private Optional<String> name;

  @Option(names = "--blade", paramLabel = "LABEL", required = true, description = "The blade.")
  private String blade;

  @Option(
      names = "--stage",
      paramLabel = "NAME",
      defaultValue = "as found",
      description = "Its first stage (default: ${DEFAULT-VALUE}).")
  private String stageName;

  @Option(names = "--new", description = "Add the blade even if its label is nearly one known.")
  private boolean newBlade;

  @Mixin private SessionFields fields;

  @Override
  protected void note(OpenedJournal journal) {
    PrintWriter out = out();
    Session session = fields.over(bare(journal.reader().journal()), journal.reader());
    if (journal.writer().start(session, stageName, newBlade)) {
      tellAdded(session.blade(), out);
    }
    out.println("opened " + JournalText.session(session));
    Advice.print(
        out, data, SessionEvidence.read(journal.reader(), session.name()), journal.reader());
  }

  private Session bare(JournalReader journal) {
    Instant now = OpenedJournal.now();
    String label = journal.bladeNames().same(blade).orElse(blade.strip());
    return new Session(
        name.orElseGet(
            () -> Session.usualName(label, LocalDateTime.ofInstant(now, ZoneId.systemDefault()))),
        label,
        new Equipment(Optional.empty(), Optional.empty(), Optional.empty()),
        OptionalDouble.empty(),
        Optional.empty(),
        now,
        Optional.empty());
  }

  private void tellAdded(String label, PrintWriter out) {
    out.println(
        PlainText.inert(
            "blade '"
                + label
                + "' is new and was added; its edge length makes the suggested places right:"
                + data.in(" snick blade correct " + ShellWord.of(label))
                + " --length MM --why measured"));
  }
}
