package snick.cli.terminal;

import java.util.regex.Pattern;
import snick.port.OperatingSystem;

/** A text as one word of a command line that is told to a person to type. */
public final class ShellWord {
  private static final Pattern PLAIN = Pattern.compile("[\\w%+,./:=@-]+");
  private static final Pattern PLAIN_ON_WINDOWS = Pattern.compile("[\\w+./:\\\\@-]+");

  private ShellWord() {}

  /** {@code text} as it is typed on this system. */
  public static String of(String text) {
    return of(text, OperatingSystem.present());
  }

  /**
   * {@code text}, quoted if the system's usual shell would not take it as it is: a POSIX shell (XCU
   * 2.2, Quoting), or the command prompt, which knows double quotes only.
   */
  static String of(String text, OperatingSystem system) {
    if (system == OperatingSystem.WINDOWS) {
      boolean plain = PLAIN_ON_WINDOWS.matcher(text).matches();
      return plain ? text : '"' + text.replace("\"", "\\\"") + '"';
    }
    return PLAIN.matcher(text).matches() ? text : "'" + text.replace("'", "'\\''") + "'";
  }
}
