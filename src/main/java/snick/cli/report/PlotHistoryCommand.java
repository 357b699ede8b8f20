package snick.cli.report;

import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import snick.phrase.Words;
import snick.report.plot.BladeStory;
import snick.report.plot.HistoryPlot;
import snick.report.plot.Picture;
import snick.store.StoreReader;

/** Draws a blade over its sessions. */
@Command(
    name = "history",
    description =
        "Draw a blade over time: the force at the end of each session, with a gap where rig,"
            + " filament lot or calibration changed.",
    footer = {"  snick plot history kitchen-1 -o kitchen-1.svg"})
final class PlotHistoryCommand extends Drawing {
  @Parameters(paramLabel = "BLADE", description = "Label of the blade, or how it begins.")
  private String label;

  @Override
  Picture picture(StoreReader store) {
    return HistoryPlot.of(
        BladeStory.read(store, store.journal().bladeMeant(label), data.settings().marginGf()),
        Words.english());
  }
}
