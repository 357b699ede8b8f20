package snick.cli.option;

import java.nio.file.Path;

/** This program's directories by the XDG Base Directory Specification. */
public enum XdgDirectory {
  DATA("XDG_DATA_HOME", ".local/share"),
  CONFIGURATION("XDG_CONFIG_HOME", ".config");

  private final String variable;
  private final String belowHome;

  XdgDirectory(String variable, String belowHome) {
    this.variable = variable;
    this.belowHome = belowHome;
  }

  /** As the variable says if it is set and absolute, else below home; not made yet. */
  public Path path() {
    String value = System.getenv(variable);
    Path base =
        value != null && value.startsWith("/")
            ? Path.of(value)
            : Path.of(System.getProperty("user.home"), belowHome);
    return base.resolve("snick");
  }
}
