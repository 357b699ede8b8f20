package snick.phrase;

/**
 * Why something that a person asked for is not done. The phrase gives the value, the limit, the
 * place and the next step. Nothing has changed when it is thrown.
 */
public class NotAccepted extends IllegalArgumentException implements Told {
  private static final long serialVersionUID = 1L;

  private final transient Phrase why;

  public NotAccepted(Phrase why) {
    this.why = why;
  }

  /** The text {@code key} of the catalog with {@code values}: name, value, name, value, … */
  public NotAccepted(String key, Object... values) {
    this(Phrase.of(key, values));
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
