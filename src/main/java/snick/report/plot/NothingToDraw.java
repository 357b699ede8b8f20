package snick.report.plot;

/** There is nothing to draw or to tell; the message says what is missing and what to do. */
public final class NothingToDraw extends RuntimeException {
  private static final long serialVersionUID = 1L;

  NothingToDraw(String message) {
    super(message);
  }
}
