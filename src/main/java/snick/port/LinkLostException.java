package snick.port;

import java.io.IOException;

/** The device was unplugged, or the connection broke. */
public final class LinkLostException extends IOException {
  private static final long serialVersionUID = 1L;

  /** What was lost, for people. */
  public LinkLostException(String message) {
    super(message);
  }

  LinkLostException(String message, Throwable cause) {
    super(message, cause);
  }
}
