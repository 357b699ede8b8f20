package snick.store.database;

/** Watches long work and may stop it. Called on the thread that works. */
@FunctionalInterface
public interface Watch {
  /** Work that nobody watches. */
  Watch NONE = (doing, done, total) -> true;

  /**
   * So much of {@code total} is done, in whatever the work counts: cuts, bytes.
   *
   * @param doing what is being done, a verb in its -ing form
   * @return whether to go on; if not, the work ends with {@link Stopped} and leaves nothing
   */
  boolean goesOn(String doing, long done, long total);

  /** Ends the work if the watch wants it. */
  default void check(String doing, long done, long total) {
    if (!goesOn(doing, done, total)) {
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
