package snick.cli.journal;

import java.io.PrintWriter;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedJournal;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.ShellWord;
import snick.cli.terminal.WallTime;
import snick.journal.Blade;
import snick.journal.NotAccepted;
import snick.journal.Session;
import snick.journal.Stage;
import snick.store.SessionEvidence;

/** Opens a session and begins its first stage. */
@Command(
    name = "start",
    mixinStandardHelpOptions = true,
    description = {
      "Open a session and begin its first stage; cuts recorded from now on land in it.",
      "A blade that is not known yet is added."
    },
    footerHeading = "%nExamples (invented):%n",
    footer = {
      "  snick session start --blade kitchen-1",
      "  snick session start evening --blade kitchen-1 --lot spool-b \\",
      "    --room 21 --operator me",
    })
final class SessionStartCommand implements Callable<Integer> {
  private static final int LONGEST_BLADE_IN_NAME = 90;

  @Spec private CommandSpec spec;

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

  @Mixin private SessionFields fields;
  @Mixin private DataDirectory data;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      Session session = fields.over(bare(), journal.reader());
      new Stage(1, stageName);
      requireNew(journal, session.name());
      addIfNew(journal, session.blade(), out);
      journal.writer().open(session);
      journal.writer().begin(session.name(), stageName);
      out.println("opened " + JournalText.session(session));
      Advice.print(
          out, data, SessionEvidence.read(journal.reader(), session.name()), journal.reader());
    }
    return ExitCode.OK;
  }

  private Session bare() {
    Instant now = OpenedJournal.now();
    String label = blade.strip();
    return new Session(
        name.orElseGet(() -> shortened(label) + " " + WallTime.of(now)),
        label,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        OptionalDouble.empty(),
        Optional.empty(),
        now,
        Optional.empty());
  }

  private static String shortened(String label) {
    return label.substring(0, Math.min(label.length(), LONGEST_BLADE_IN_NAME));
  }

  private static void requireNew(OpenedJournal journal, String session) {
    if (journal.reader().journal().session(session).isPresent()) {
      throw new NotAccepted(
          "session '" + session + "' is already in the journal: choose another name");
    }
  }

  private void addIfNew(OpenedJournal journal, String label, PrintWriter out) {
    if (journal.reader().journal().blade(label).isEmpty()) {
      journal.writer().add(Blade.labelled(label));
      out.println(
          PlainText.inert(
              "blade '"
                  + label
                  + "' is new and was added; its edge length makes the suggested places right:"
                  + data.in(" snick blade correct " + ShellWord.of(label))
                  + " --length MM --why measured"));
    }
  }
}
