package snick.exchange.table;

import java.io.BufferedOutputStream;
import java.io.FilterOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** A new file whose bytes are counted and digested (SHA-256, FIPS 180-4) as they are written. */
public final class DigestedFile extends FilterOutputStream {
  private final MessageDigest digest = sha256();
  private long bytes;

  public DigestedFile(Path file) throws IOException {
    super(
        new BufferedOutputStream(
            Files.newOutputStream(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE),
            1 << 16));
  }

  public static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  public static String hex(MessageDigest digest) {
    return HexFormat.of().formatHex(digest.digest());
  }

  @Override
  public void write(int octet) throws IOException {
    write(new byte[] {(byte) octet}, 0, 1);
  }

  @Override
  public void write(byte[] buffer, int offset, int length) throws IOException {
    out.write(buffer, offset, length);
    digest.update(buffer, offset, length);
    bytes += length;
  }

  /** Bytes and digest of the closed file. */
  public FileFacts facts() {
    return new FileFacts(bytes, hex(digest));
  }
}
