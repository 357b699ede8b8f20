package snick.cli.terminal;

import java.util.regex.Pattern;

/** A text as one word of a command line that is told to a person to type. */
public final class ShellWord {
  private static final Pattern PLAIN = Pattern.compile("[\\w%+,./:=@-]+");

  private ShellWord() {}

  /** {@code text}, quoted if a POSIX shell would not take it as it is (XCU 2.2, Quoting). */
  public static String of(String text) {
    return PLAIN.matcher(text).matches() ? text : "'" + text.replace("'", "'\\''") + "'";
  }
}
