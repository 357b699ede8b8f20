package snick.cli.report;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Pictures. */
@Command(
    name = "plot",
    mixinStandardHelpOptions = true,
    description =
        "Draw a cut, a stage, a session, a blade over time, a calibration, a control chart or a rig's response.",
    subcommands = {
      PlotCutCommand.class,
      PlotStageCommand.class,
      PlotProgressionCommand.class,
      PlotCalibrationCommand.class,
      PlotChartCommand.class,
      PlotResponseCommand.class,
      PlotHistoryCommand.class
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  snick plot cut 12 -o cut12.svg",
      "  snick plot progression --session 2026-05-03-a -o evening.png"
    })
public final class PlotCommand implements Runnable {
  @Spec private CommandSpec spec;

  @Override
  public void run() {
    throw new ParameterException(
        spec.commandLine(),
        "Missing command: cut, stage, progression, history, calibration, chart or response");
  }
}
