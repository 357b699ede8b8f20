package snick.port;

import com.fazecast.jSerialComm.SerialPort;
import com.sun.jna.NativeLibrary;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import snick.phrase.Phrase;

/**
 * The native half of the serial library. Left to itself the library runs whatever lies at a place
 * in the temporary folder, which on Linux every user of the machine may write to; on macOS and
 * Windows that folder is the user's own. Here it is unpacked, on Linux, into a folder of this
 * user's alone, and compared, each time. Whoever sets {@code jSerialComm.library.path} is left in
 * charge.
 *
 * <p>The library also has the process ignore SIGHUP, so that a recorder would outlive its terminal
 * unseen; what held before, holds again afterwards.
 */
final class SerialLibrary {
  private static final String PATH = "jSerialComm.library.path";
  private static final String NAME = "libjSerialComm.so";

  /**
   * Folders of the library's jar, by what Java calls the machine; the first that loads is taken.
   */
  private static final Map<String, List<String>> FOLDERS =
      Map.of(
          "amd64", List.of("x86_64"),
          "aarch64", List.of("armv8_64"),
          "arm", List.of("armv7hf", "armv6hf", "armv5"),
          "i386", List.of("x86"),
          "ppc64le", List.of("ppc64le"));

  private static boolean loaded;

  private SerialLibrary() {}

  /**
   * Loads it once; to be called before the library's own classes are used.
   *
   * @throws PortException if it cannot be loaded from a safe place
   */
  static synchronized void load() throws PortException {
    if (loaded) {
      return;
    }
    OperatingSystem system = OperatingSystem.present();
    if (system == OperatingSystem.LINUX) {
      choose();
    }
    if (system != OperatingSystem.WINDOWS) {
      HangUp before = HangUp.present();
      SerialPort.getVersion();
      before.restore();
    }
    loaded = true;
  }

  private static void choose() throws PortException {
    if (System.getProperty(PATH) != null) {
      return;
    }
    try {
      Path folder = ownFolder();
      unpackFitting(folder);
      System.setProperty(PATH, folder.toString());
    } catch (IOException | UnsatisfiedLinkError e) {
      throw new PortException(
          PortException.Reason.OTHER,
          Phrase.of("port.no_library", "why", String.valueOf(e.getMessage())),
          e);
    }
  }

  /** Tries what it unpacks: where nothing can be loaded, the library would look elsewhere. */
  private static void unpackFitting(Path folder) throws IOException {
    String machine = System.getProperty("os.arch", "");
    UnsatisfiedLinkError last = new UnsatisfiedLinkError("there is none for " + machine);
    for (String of : FOLDERS.getOrDefault(machine, List.of())) {
      try (InputStream in = SerialLibrary.class.getResourceAsStream("/Linux/" + of + "/" + NAME)) {
        if (in != null) {
          NativeLibrary.getInstance(unpacked(in.readAllBytes(), folder.resolve(NAME)).toString());
          return;
        }
      } catch (UnsatisfiedLinkError e) {
        last = e;
      }
    }
    throw last;
  }

  /** For this run alone if there can be none that stays. */
  private static Path ownFolder() throws IOException {
    try {
      return NativeFolder.make();
    } catch (IOException notOurs) {
      Path forThisRun = Files.createTempDirectory("snick-native-");
      forThisRun.toFile().deleteOnExit();
      forThisRun.resolve(NAME).toFile().deleteOnExit();
      return forThisRun;
    }
  }

  private static Path unpacked(byte[] library, Path file) throws IOException {
    if (Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)
        && Arrays.equals(Files.readAllBytes(file), library)) {
      return file;
    }
    Path partial = Files.createTempFile(file.getParent(), "library-", ".partial");
    try {
      Files.write(partial, library);
      Files.move(
          partial, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } finally {
      Files.deleteIfExists(partial);
    }
    return file;
  }
}
