package snick.view.http;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.HexFormat;

/** A secret of 256 bits that every change must carry; a new one at every start. Immutable. */
public final class PageToken {
  private static final int BYTES = 32;

  private final String text;

  private PageToken(String text) {
    this.text = text;
  }

  /** A new secret. */
  public static PageToken random() {
    byte[] bytes = new byte[BYTES];
    new SecureRandom().nextBytes(bytes);
    return new PageToken(HexFormat.of().formatHex(bytes));
  }

  /** Whether {@code offered} is the secret; takes the same time wherever it differs. */
  boolean matches(String offered) {
    return MessageDigest.isEqual(
        text.getBytes(StandardCharsets.UTF_8), offered.getBytes(StandardCharsets.UTF_8));
  }

  /** The secret, as hexadecimal digits. */
  public String text() {
    return text;
  }

  /**
   * Writes the secret where programs of the same user find it, in place of an older one: mode 0600,
   * or as the folder gives it on where there are no modes.
   */
  public void writeTo(Path file) throws IOException {
    Path folder = file.toAbsolutePath().getParent();
    Files.createDirectories(folder);
    Path draft = Files.createTempFile(folder, "token", ".new", ownersAlone(folder));
    try {
      Files.writeString(draft, text + "\n");
      Files.move(draft, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } finally {
      Files.deleteIfExists(draft);
    }
  }

  private static FileAttribute<?>[] ownersAlone(Path folder) {
    if (!folder.getFileSystem().supportedFileAttributeViews().contains("posix")) {
      return new FileAttribute<?>[0];
    }
    return new FileAttribute<?>[] {
      PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"))
    };
  }
}
