package snick.cli.verdict;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;
import snick.cli.journal.Advice;
import snick.cli.option.DataDirectory;
import snick.cli.option.JudgeChoice;
import snick.cli.option.OpenedStore;
import snick.cli.option.SessionChoice;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.PlainText;
import snick.store.KeptStudy;
import snick.store.SessionEvidence;
import snick.store.StoreReader;

/** What to do next, in one line. */
@Command(
    name = "coach",
    mixinStandardHelpOptions = true,
    description = "Say in one line what to do next in the running session.",
    footerHeading = "%nExamples:%n",
    footer = {"  snick coach", "  snick coach --margin 6"})
public final class CoachCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private SessionChoice session;
  @Mixin private JudgeChoice judge;
  @Mixin private DataDirectory data;

  @Override
  public Integer call() {
    try (StoreReader store = OpenedStore.toRead(data)) {
      SessionEvidence evidence = SessionEvidence.read(store, session.toRead(store));
      spec.commandLine()
          .getOut()
          .println(
              PlainText.inert(
                  data.in(
                      Advice.line(
                          evidence, judge.judge(KeptStudy.of(store, evidence.log().session()))))));
    }
    return ExitCode.OK;
  }
}
