package snick.journal.name;

/**
 * An entry that the journal does not take. The message gives the value, the limit, the field and
 * the next step. Nothing has changed when it is thrown.
 */
public sealed class NotAccepted extends IllegalArgumentException permits SlipOfName {
  private static final long serialVersionUID = 1L;

  /** {@code message} is shown to the person as it stands. */
  public NotAccepted(String message) {
    super(message);
  }
}
