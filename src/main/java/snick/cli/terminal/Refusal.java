package snick.cli.terminal;

/**
 * A command cannot go on: the message gives value, limit, place and next step, and is printed
 * without a stack trace.
 */
public final class Refusal extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final int exitCode;

  private Refusal(int exitCode, String message, Throwable cause) {
    super(message, cause);
    this.exitCode = exitCode;
  }

  /** Input is not what it should be. */
  public static Refusal badInput(String message) {
    return new Refusal(ExitCode.BAD_INPUT, message, null);
  }

  /** Something needed is not there or in use. */
  public static Refusal unavailable(String message) {
    return new Refusal(ExitCode.UNAVAILABLE, message, null);
  }

  /** The command line asks for something that cannot be. */
  public static Refusal usage(String message) {
    return new Refusal(ExitCode.USAGE, message, null);
  }

  /** Anything else, with the exception that led to it. */
  public static Refusal failed(String message, Throwable cause) {
    return new Refusal(ExitCode.FAILED, message, cause);
  }

  /** Exit status of the command, see {@link ExitCode}. */
  public int exitCode() {
    return exitCode;
  }
}
