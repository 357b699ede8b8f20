package snick.exchange;

/** Watches long work and may stop it. Called on the thread that works. */
@FunctionalInterface
public interface Watch {
  /** Work that nobody watches. */
  Watch NONE = (done, total) -> true;

  /**
   * So many of {@code total} cuts are done, 0 for the total if it is unknown.
   *
   * @return whether to go on; if not, the work ends with {@link Stopped} and leaves nothing
   */
  boolean goesOn(long done, long total);

  /** Ends the work if the watch wants it. */
  default void check(long done, long total) {
    if (!goesOn(done, total)) {
      throw new Stopped();
    }
  }

  /** The work was stopped as its watch wanted; nothing is left of it. */
  final class Stopped extends RuntimeException {
    private static final long serialVersionUID = 1L;

    Stopped() {
      super("stopped; nothing was left behind");
    }
  }
}
