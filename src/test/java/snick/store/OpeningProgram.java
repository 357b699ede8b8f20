package snick.store;

import java.nio.file.Path;
import java.time.Clock;

/** Opens the store in the directory named as an invented later version does, and closes it. */
final class OpeningProgram {
  private OpeningProgram() {}

  public static void main(String[] args) {
    Store.open(Path.of(args[0]), Clock.systemUTC(), OlderStore::later).close();
  }
}
