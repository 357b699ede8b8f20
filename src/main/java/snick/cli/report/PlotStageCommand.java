package snick.cli.report;

import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import snick.cli.option.SessionChoice;
import snick.journal.Stage;
import snick.phrase.Words;
import snick.report.plot.Picture;
import snick.report.plot.StagePlot;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;

/** Draws the cuts of one stage. */
@Command(
    name = "stage",
    description = "Draw the cuts of a stage along the edge, with mean and interval.",
    footer = {"  snick plot stage deburred --session evening -o deburred.svg"})
final class PlotStageCommand extends Drawing {
  @Parameters(paramLabel = "STAGE", description = "Name of the stage.")
  private String stage;

  @Mixin private SessionChoice session;

  @Override
  Picture picture(StoreReader store) {
    String name = session.toRead(store);
    SessionEvidence evidence = SessionEvidence.read(store, name);
    Stage chosen = evidence.log().stage(stage);
    List<CutSummary> cuts = new ArrayList<>();
    store.forEachSummary(CutSelection.all().inStage(name, chosen), cuts::add);
    return StagePlot.of(evidence.measured(), chosen, cuts, Words.english());
  }
}
