package snick.cli.option;

import picocli.CommandLine.Mixin;
import snick.cli.terminal.TypedCommand;

/** A command that has to do with the store. */
public abstract class DataCommand extends TypedCommand {
  /** Where the store lies. */
  @Mixin protected DataDirectory data;
}
