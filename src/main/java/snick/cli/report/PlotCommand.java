package snick.cli.report;

import picocli.CommandLine.Command;
import snick.cli.terminal.CommandGroup;

/** Pictures. */
@Command(
    name = "plot",
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
    footer = {
      "  snick plot cut 12 -o cut12.svg",
      "  snick plot progression --session 2026-05-03-a -o evening.png"
    })
public final class PlotCommand extends CommandGroup {}
