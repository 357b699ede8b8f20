package snick.faults;

import java.util.SplittableRandom;

/** Something that a program does again and again, and is killed while it does. */
interface Victim extends AutoCloseable {
  /**
   * Starts it, kills it at a random instant, and demands what was promised.
   *
   * @throws AssertionError if a promise is broken
   */
  void round(SplittableRandom random) throws Exception;

  @Override
  default void close() {}
}
