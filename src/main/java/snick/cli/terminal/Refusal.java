package snick.cli.terminal;

import java.util.Locale;
import java.util.function.Function;
import java.util.function.Supplier;

/**
 * A command cannot go on: the message gives value, limit, place and next step, and is printed
 * without a stack trace. Values, if there are any, take the places of {@code %s} in it; beside
 * values a per cent sign is written {@code %%}.
 */
public final class Refusal extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final int exitCode;

  private Refusal(int exitCode, String message, Throwable cause) {
    super(message, cause);
    this.exitCode = exitCode;
  }

  /** Input is not what it should be. */
  public static Refusal badInput(String message, Object... values) {
    return new Refusal(ExitCode.BAD_INPUT, said(message, values), null);
  }

  /** Something needed is not there or in use. */
  public static Refusal unavailable(String message, Object... values) {
    return new Refusal(ExitCode.UNAVAILABLE, said(message, values), null);
  }

  /** The command line asks for something that cannot be. */
  public static Refusal usage(String message, Object... values) {
    return new Refusal(ExitCode.USAGE, said(message, values), null);
  }

  /** Anything else, with the exception that led to it. */
  public static Refusal failed(String message, Throwable cause) {
    return new Refusal(ExitCode.FAILED, message, cause);
  }

  /**
   * What {@code asked} gives; what it does not accept is refused, for the reason it gives.
   *
   * @throws Refusal if {@code asked} throws an {@link IllegalArgumentException}
   */
  public static <T> T ifNotAccepted(Supplier<T> asked, Function<String, Refusal> refusal) {
    try {
      return asked.get();
    } catch (IllegalArgumentException e) {
      throw refusal.apply(e.getMessage());
    }
  }

  /** The message with its values, if there are any. */
  static String said(String message, Object... values) {
    return values.length == 0 ? message : String.format(Locale.ROOT, message, values);
  }

  /** Exit status of the command, see {@link ExitCode}. */
  public int exitCode() {
    return exitCode;
  }
}
