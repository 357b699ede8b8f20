package snick.cli.exchange;

import picocli.CommandLine.Command;
import snick.cli.terminal.CommandGroup;

/** Packages. */
@Command(
    name = "package",
    description = "Check packages, and list those that were taken in.",
    subcommands = {PackageCheckCommand.class, PackageListCommand.class},
    footer = {"  snick package check evening.zip", "  snick package list"})
public final class PackageCommand extends CommandGroup {}
