package snick.phrase;

/** A failure that knows what to tell the person. */
public interface Told {
  /** What to tell the person. */
  Phrase why();

  /** What to tell of {@code failure}: its phrase, else what its library says, as it stands. */
  static Phrase of(Throwable failure) {
    return failure instanceof Told told
        ? told.why()
        : Phrase.of("fault.said", "what", String.valueOf(failure.getMessage()));
  }
}
