package snick.cli.bench;

import picocli.CommandLine.Command;
import snick.cli.terminal.CommandGroup;

/** Whatever concerns the wire protocol. */
@Command(
    name = "protocol",
    description = "Try firmware against the protocol.",
    subcommands = {ProtocolCheckCommand.class},
    footer = {"  snick protocol check /dev/ttyACM0"})
public final class ProtocolCommand extends CommandGroup {}
