package snick.port;

import java.io.IOException;
import java.util.List;
import snick.phrase.Phrase;
import snick.phrase.Told;
import snick.phrase.Words;

/** A port cannot be opened. The phrase says which, why, and what to do. */
public final class PortException extends IOException implements Told {
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
  private final transient Phrase why;

  /** Which port, why, and what to do, for people. */
  public PortException(Reason reason, Phrase why) {
    this(reason, why, null);
  }

  PortException(Reason reason, Phrase why, Throwable cause) {
    super(cause);
    this.reason = reason;
    this.why = why;
  }

  /** {@code name} fits more than one port. */
  public static PortException ambiguous(PortAddress.SerialName name, List<String> fitting) {
    return new PortException(
        Reason.AMBIGUOUS,
        Phrase.of("port.ambiguous")
            .with("part", name.part())
            .with("n", fitting.size())
            .with("ports", List.<Object>copyOf(fitting)));
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

  /** Why the port cannot be opened. */
  public Reason reason() {
    return reason;
  }
}
