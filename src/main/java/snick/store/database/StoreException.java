package snick.store.database;

import snick.phrase.Phrase;
import snick.phrase.Told;
import snick.phrase.Words;

/**
 * The store could not do what was asked. Nothing of the failed step is in the store; what was
 * stored before stays. The phrase names the file and the next step.
 */
public final class StoreException extends RuntimeException implements Told {
  private static final long serialVersionUID = 1;

  /** What is in the way. */
  public enum Trouble {
    /** No space left; the same store goes on when there is space again. */
    FULL,
    /** A quota, a size limit or a failing disk; the same store goes on when that is over. */
    NOT_WRITTEN,
    /** The file or its directory may not be written. */
    READ_ONLY,
    /** Another program held the store for longer than the waiting time; try again. */
    BUSY,
    /** The file, or one trace in it, is not what was written. */
    DAMAGED,
    /** Written by a newer version of this program. */
    NEWER_VERSION,
    /** There is no store here. */
    MISSING,
    /** The file was deleted, moved or renamed while it was open; what was written went with it. */
    GONE,
    /** Something is there already under the name that was to be made; it was left alone. */
    TAKEN,
    /** Anything else. */
    OTHER
  }

  private final Trouble trouble;
  private final transient Phrase why;

  public StoreException(Trouble trouble, Phrase why) {
    this(trouble, why, null);
  }

  public StoreException(Trouble trouble, Phrase why, Throwable cause) {
    super(cause);
    this.trouble = trouble;
    this.why = why;
  }

  @Override
  public Phrase why() {
    return why;
  }

  /** {@link #why} in English. */
  @Override
  public String getMessage() {
    return Words.english().say(why);
  }

  /** What is in the way. */
  public Trouble trouble() {
    return trouble;
  }
}
