package snick.virtualrig.line;

import java.io.IOException;

/** The system gives no pseudo-terminal. */
public final class NoPseudoTerminalException extends IOException {
  private static final long serialVersionUID = 1L;

  NoPseudoTerminalException(String call, int error) {
    super("no pseudo-terminal: " + call + " failed, error " + error);
  }
}
