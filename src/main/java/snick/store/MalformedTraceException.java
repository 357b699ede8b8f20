package snick.store;

/** Bytes that are no trace. Caught where the cut they belong to is known. */
final class MalformedTraceException extends RuntimeException {
  private static final long serialVersionUID = 1;

  MalformedTraceException(String message) {
    super(message);
  }
}
