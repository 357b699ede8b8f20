package snick.cli.option;

import java.nio.file.Path;
import java.util.Map;
import snick.port.OperatingSystem;

/**
 * This program's folders for a person: by the XDG Base Directory Specification where its variables
 * are set and on Linux, else where the system keeps such things.
 */
public enum OwnFolder {
  DATA("XDG_DATA_HOME", ".local/share", "LOCALAPPDATA", "AppData/Local"),
  CONFIGURATION("XDG_CONFIG_HOME", ".config", "APPDATA", "AppData/Roaming");

  private static final String ON_MAC = "Library/Application Support";

  private final String variable;
  private final String belowHome;
  private final String windowsVariable;
  private final String belowWindowsHome;

  OwnFolder(String variable, String belowHome, String windowsVariable, String belowWindowsHome) {
    this.variable = variable;
    this.belowHome = belowHome;
    this.windowsVariable = windowsVariable;
    this.belowWindowsHome = belowWindowsHome;
  }

  /** Here; not made yet. */
  public Path path() {
    OperatingSystem here = OperatingSystem.present();
    return path(here, System.getenv(), here.home(System.getenv()));
  }

  /**
   * On a system with these variables and this home; paths are of the home's file system. A variable
   * counts if it is set and absolute.
   */
  Path path(OperatingSystem system, Map<String, String> variables, Path home) {
    Path given = home.getFileSystem().getPath(variables.getOrDefault(variable, ""));
    Path base = given.isAbsolute() ? given : usual(system, variables, home);
    return base.resolve("snick");
  }

  private Path usual(OperatingSystem system, Map<String, String> variables, Path home) {
    return switch (system) {
      case LINUX -> home.resolve(belowHome);
      case MAC -> home.resolve(ON_MAC);
      case WINDOWS -> {
        Path given = home.getFileSystem().getPath(variables.getOrDefault(windowsVariable, ""));
        yield given.isAbsolute() ? given : home.resolve(belowWindowsHome);
      }
    };
  }
}
