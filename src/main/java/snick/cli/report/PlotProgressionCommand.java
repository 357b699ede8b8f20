package snick.cli.report;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;
import snick.cli.option.DataDirectory;
import snick.cli.option.JudgeChoice;
import snick.cli.option.SessionChoice;
import snick.phrase.Words;
import snick.report.plot.Picture;
import snick.report.plot.ProgressionPlot;
import snick.store.SessionEvidence;
import snick.store.StoreReader;

/** Draws the stages of a session. */
@Command(
    name = "progression",
    mixinStandardHelpOptions = true,
    description =
        "Draw the stages of a session side by side: cuts, means with intervals, verdicts.",
    footerHeading = "%nExamples:%n",
    footer = {"  snick plot progression --session evening -o evening.png"})
final class PlotProgressionCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private SessionChoice session;
  @Mixin private JudgeChoice judge;

  @Mixin private DataDirectory data;
  @Mixin private PictureFile file;

  @Override
  public Integer call() {
    return file.draw(spec, data, this::picture);
  }

  private Picture picture(StoreReader store) {
    SessionEvidence evidence = SessionEvidence.read(store, session.toRead(store));
    return ProgressionPlot.of(
        evidence.log().session(),
        evidence.stages(),
        judge.judge(data.settings(), store, evidence),
        Words.english());
  }
}
