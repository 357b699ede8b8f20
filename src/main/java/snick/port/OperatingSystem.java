package snick.port;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;

/** Systems that name ports, folders and errors each in their own way. */
public enum OperatingSystem {
  /** And whatever is like it. */
  LINUX,
  MAC,
  WINDOWS;

  /** The one that this program runs on. */
  public static OperatingSystem present() {
    return named(System.getProperty("os.name", ""));
  }

  /** The one that Java calls by this name ({@code os.name}). */
  public static OperatingSystem named(String name) {
    String lower = name.toLowerCase(Locale.ROOT);
    if (lower.startsWith("windows")) {
      return WINDOWS;
    }
    return lower.startsWith("mac") || lower.startsWith("darwin") ? MAC : LINUX;
  }

  /**
   * The user's home: {@code HOME} where that is set and absolute, as POSIX has it, but on Windows;
   * else as Java knows it.
   */
  public Path home(Map<String, String> variables) {
    String given = this == WINDOWS ? "" : variables.getOrDefault("HOME", "");
    Path home = Path.of(given);
    return home.isAbsolute() ? home : Path.of(System.getProperty("user.home"));
  }
}
