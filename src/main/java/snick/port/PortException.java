package snick.port;

import java.io.IOException;
import java.util.List;

/** A port cannot be opened. The message says which, why, and what to do. */
public final class PortException extends IOException {
  private static final long serialVersionUID = 1L;

  /** Why. */
  public enum Reason {
    /** Nothing of that name is there now. */
    NOT_FOUND,
    /** Something is there, and it is no serial port. */
    NOT_A_PORT,
    /** More than one port fits the name. */
    AMBIGUOUS,
    /** This user may not open it. */
    NO_PERMISSION,
    /** Another program has it. */
    BUSY,
    /** The system says otherwise why not. */
    OTHER
  }

  private final Reason reason;

  /** Which port, why, and what to do, for people. */
  public PortException(Reason reason, String message) {
    super(message);
    this.reason = reason;
  }

  PortException(Reason reason, String message, Throwable cause) {
    super(message, cause);
    this.reason = reason;
  }

  /** {@code name} fits more than one port. */
  public static PortException ambiguous(PortAddress.SerialName name, List<String> fitting) {
    return new PortException(
        Reason.AMBIGUOUS,
        "'"
            + name.part()
            + "' fits "
            + fitting.size()
            + " ports: "
            + String.join(", ", fitting)
            + "; give more of the name");
  }

  /** Why the port cannot be opened. */
  public Reason reason() {
    return reason;
  }
}
