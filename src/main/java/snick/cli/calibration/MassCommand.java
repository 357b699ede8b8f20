package snick.cli.calibration;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snick.cli.bench.BenchRig;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.Refusal;
import snick.store.Store;
import snick.store.database.StoreException;

/** A command that asks for masses to be hung, talks meanwhile, and keeps what was read. */
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

  /** Adds a result to the store. */
  protected final void keep(Consumer<Store> adding) {
    try (Store store = OpenedStore.toWrite(data)) {
      adding.accept(store);
    } catch (StoreException e) {
      throw Refusal.failed("not saved: " + e.getMessage(), e);
    }
  }
}
