package snick.port;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;

/** A folder of this user's alone (mode 0700), from which native libraries are run. Linux. */
public final class NativeFolder {
  private static final String JNA_FOLDER = "jna.tmpdir";
  private static final String JNA_ON_DISK = "jna.nounpack";

  private NativeFolder() {}

  /**
   * In the user's cache (XDG Base Directory Specification), below the home that the account has and
   * not one that {@code HOME} may name: code is run from there, and root's must be root's.
   *
   * @throws IOException if it cannot be made, or is not this user's
   */
  static Path make() throws IOException {
    String cache = System.getenv("XDG_CACHE_HOME");
    Path base =
        cache != null && cache.startsWith("/")
            ? Path.of(cache)
            : Path.of(System.getProperty("user.home"), ".cache");
    Path folder = base.resolve("snick").resolve("native").toAbsolutePath();
    Files.createDirectories(folder);
    Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwx------"));
    return folder;
  }

  /**
   * Has JNA unpack its library there, before it is first used; if that cannot be, it takes a file
   * of a new name in the temporary folder. Whoever sets {@code jna.tmpdir} or {@code jna.nounpack}
   * is left in charge.
   */
  public static void forJna() {
    if (OperatingSystem.present() == OperatingSystem.LINUX
        && System.getProperty(JNA_FOLDER) == null
        && System.getProperty(JNA_ON_DISK) == null) {
      try {
        System.setProperty(JNA_FOLDER, make().toString());
      } catch (IOException notOurs) {
        return;
      }
    }
  }
}
