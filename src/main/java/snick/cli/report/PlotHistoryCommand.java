package snick.cli.report;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import snick.cli.option.DataDirectory;
import snick.phrase.Words;
import snick.report.plot.BladeStory;
import snick.report.plot.HistoryPlot;
import snick.report.plot.Picture;
import snick.store.StoreReader;

/** Draws a blade over its sessions. */
@Command(
    name = "history",
    mixinStandardHelpOptions = true,
    description =
        "Draw a blade over time: the force at the end of each session, with a gap where rig,"
            + " filament lot or calibration changed.",
    footerHeading = "%nExamples:%n",
    footer = {"  snick plot history kitchen-1 -o kitchen-1.svg"})
final class PlotHistoryCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "BLADE", description = "Label of the blade, or how it begins.")
  private String label;

  @Mixin private DataDirectory data;
  @Mixin private PictureFile file;

  @Override
  public Integer call() {
    return file.draw(spec, data, this::picture);
  }

  private Picture picture(StoreReader store) {
    return HistoryPlot.of(
        BladeStory.read(store, store.journal().bladeMeant(label), data.settings().marginGf()),
        Words.english());
  }
}
