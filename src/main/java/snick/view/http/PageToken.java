package snick.view.http;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.HexFormat;
import snick.store.database.StoreFile;

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
    Files.createDirectories(file.toAbsolutePath().getParent());
    StoreFile.replace(file, (text + "\n").getBytes(StandardCharsets.UTF_8));
  }
}
