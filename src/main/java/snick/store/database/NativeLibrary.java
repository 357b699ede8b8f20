package snick.store.database;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.sqlite.util.LibraryLoaderUtil;

/**
 * Keeps SQLite's native library beside the store, unpacked once. Left to itself the driver unpacks
 * it into the temporary folder at every start, and leaves it there when the process is killed.
 * Whoever sets {@code org.sqlite.lib.path} or {@code org.sqlite.tmpdir} is left in charge.
 */
public final class NativeLibrary {
  private static final String PATH = "org.sqlite.lib.path";
  private static final String TEMPORARY = "org.sqlite.tmpdir";

  private NativeLibrary() {}

  /** Unpacks it into {@code directory} if need be; if that fails, the driver does as it used to. */
  public static synchronized void keepIn(Path directory) {
    if (System.getProperty(PATH) != null || System.getProperty(TEMPORARY) != null) {
      return;
    }
    String name = LibraryLoaderUtil.getNativeLibName();
    String resource = LibraryLoaderUtil.getNativeLibResourcePath() + "/" + name;
    try (InputStream in = NativeLibrary.class.getResourceAsStream(resource)) {
      if (in != null) {
        Files.createDirectories(directory, StoreFile.ownersAlone(directory, "rwx------"));
        unpack(in.readAllBytes(), directory.resolve(name));
        System.setProperty(PATH, directory.toAbsolutePath().toString());
      }
    } catch (IOException notWritable) {
      return;
    }
  }

  private static void unpack(byte[] library, Path file) throws IOException {
    if (Files.exists(file) && Arrays.equals(Files.readAllBytes(file), library)) {
      return;
    }
    StoreFile.replace(file, library);
  }
}
