package snick.port;

import java.io.IOException;
import snick.phrase.Phrase;
import snick.phrase.Told;
import snick.phrase.Words;

/** The device was unplugged, or the connection broke. */
public final class LinkLostException extends IOException implements Told {
  private static final long serialVersionUID = 1L;

  private final transient Phrase why;

  /** What was lost, for people. */
  public LinkLostException(Phrase why) {
    this(why, null);
  }

  LinkLostException(Phrase why, Throwable cause) {
    super(cause);
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
}
