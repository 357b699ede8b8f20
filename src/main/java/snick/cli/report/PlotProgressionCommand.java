package snick.cli.report;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
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
    description =
        "Draw the stages of a session side by side: cuts, means with intervals, verdicts.",
    footer = {"  snick plot progression --session evening -o evening.png"})
final class PlotProgressionCommand extends Drawing {
  @Mixin private SessionChoice session;
  @Mixin private JudgeChoice judge;

  @Override
  Picture picture(StoreReader store) {
    SessionEvidence evidence = SessionEvidence.read(store, session.toRead(store));
    return ProgressionPlot.of(
        evidence.measured(),
        evidence.stages(),
        judge.judge(data.settings(), store, evidence),
        Words.english());
  }
}
