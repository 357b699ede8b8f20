package snick.store.trace;

/** Bytes that are no trace. Caught where the cut they belong to is known. */
public final class MalformedTraceException extends RuntimeException {
  private static final long serialVersionUID = 1;

  MalformedTraceException(String message) {
    super(message);
  }
}
