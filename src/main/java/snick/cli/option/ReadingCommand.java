package snick.cli.option;

import snick.store.StoreReader;

/** A command that reads the store. */
public abstract class ReadingCommand extends DataCommand implements Runnable {
  /** Does what was asked for; {@code store} is closed afterwards. */
  protected abstract void read(StoreReader store);

  @Override
  public final void run() {
    try (StoreReader store = OpenedStore.toRead(data)) {
      read(store);
    }
  }
}
