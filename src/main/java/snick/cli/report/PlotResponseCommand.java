package snick.cli.report;

import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import snick.cli.terminal.Refusal;
import snick.phrase.Words;
import snick.report.RecentFalls;
import snick.report.plot.Picture;
import snick.report.plot.ResponsePlot;
import snick.store.StoreReader;

/** Draws how a rig answers a sudden fall of force. */
@Command(
    name = "response",
    description =
        "Draw how a rig answers a sudden fall of force, as the falls of its last cuts show it:"
            + " mechanics and filter together.",
    footer = {"  snick plot response -o response.svg"})
final class PlotResponseCommand extends Drawing {
  @Option(
      names = "--rig",
      paramLabel = "ID",
      description = "Of this rig (default: the one that cut last).")
  private Optional<String> rig;

  @Override
  Picture picture(StoreReader store) {
    RecentFalls falls =
        RecentFalls.of(store, rig)
            .orElseThrow(
                () ->
                    Refusal.badInput(
                        "no cut"
                            + rig.map(id -> " of rig " + id).orElse("")
                            + " is stored; see which there are: snick cuts list"));
    return ResponsePlot.of(
        falls.response(), falls.deviceId(), falls.samplesPerSecond(), Words.english());
  }
}
