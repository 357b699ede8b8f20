package snick.cli.calibration;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snick.cli.bench.BenchRig;
import snick.cli.option.DataCommand;

/** A command that asks for masses to be hung, and talks meanwhile. */
public abstract class MassCommand extends DataCommand implements Callable<Integer> {
  /** The rig they hang on. */
  @Mixin protected BenchRig rig;

  /** Which they are. */
  @Mixin protected MassChoice masses;

  /** Whether the result goes to a program. */
  @Option(names = "--json", description = "The result as one JSON object; messages go to stderr.")
  protected boolean json;

  /** Where the person is talked to. */
  protected final PrintWriter talk() {
    return json ? err() : out();
  }
}
