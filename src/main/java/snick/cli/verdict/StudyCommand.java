package snick.cli.verdict;

import picocli.CommandLine.Command;
import snick.cli.terminal.CommandGroup;

/** Studies of the rig. */
@Command(
    name = "study",
    description = "Measure how much results vary with rig and operator.",
    subcommands = {StudyRepeatabilityCommand.class, StudyCrossedCommand.class},
    footer = {"  snick study repeatability monday tuesday --keep", "  snick study crossed --help"})
public final class StudyCommand extends CommandGroup {}
