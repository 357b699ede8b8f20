package snick.cli.report;

import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import snick.cli.terminal.Refusal;
import snick.phrase.Words;
import snick.report.plot.CutPlot;
import snick.report.plot.Picture;
import snick.store.StoreReader;
import snick.store.record.StoredCut;

/** Draws one cut. */
@Command(
    name = "cut",
    description =
        "Draw a cut: ramp and fall, zero before and after, largest sample, loading line, estimate.",
    footer = {"  snick plot cut 12 -o cut12.svg"})
final class PlotCutCommand extends Drawing {
  @Parameters(paramLabel = "ID", description = "Id of the cut, as 'snick cuts list' shows it.")
  private long id;

  @Override
  Picture picture(StoreReader store) {
    StoredCut cut =
        store
            .cut(id)
            .orElseThrow(
                () -> Refusal.badInput("no cut " + id + "; see which there are: snick cuts list"));
    return CutPlot.of(cut, CutPlot.calibration(store, cut.summary()), Words.english());
  }
}
