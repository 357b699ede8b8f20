package snick.exchange.table;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.security.MessageDigest;
import snick.exchange.json.RefusedPackage;

/** A file being read: no byte beyond its stated length, and its digest at the end. */
public final class CheckedInput extends FilterInputStream {
  private final String file;
  private final FileFacts stated;
  private final MessageDigest digest = DigestedFile.sha256();
  private long bytes;

  public CheckedInput(InputStream in, String file, FileFacts stated) {
    super(in);
    this.file = file;
    this.stated = stated;
  }

  @Override
  public int read() throws IOException {
    byte[] one = new byte[1];
    return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
  }

  @Override
  public int read(byte[] buffer, int offset, int length) throws IOException {
    int count = in.read(buffer, offset, length);
    if (count > 0) {
      bytes += count;
      digest.update(buffer, offset, count);
    }
    if (bytes > stated.bytes()) {
      throw new RefusedPackage(
          file + " is longer than the " + stated.bytes() + " bytes that datapackage.json states");
    }
    return count;
  }

  /** Bytes read so far. */
  long bytesRead() {
    return bytes;
  }

  @Override
  public boolean markSupported() {
    return false;
  }

  /** Reads to the end and compares with what was stated. */
  public void requireAsStated() throws IOException {
    byte[] buffer = new byte[1 << 13];
    while (read(buffer, 0, buffer.length) >= 0) {}
    String found = DigestedFile.hex(digest);
    if (bytes != stated.bytes() || !found.equals(stated.sha256())) {
      throw new RefusedPackage(
          file
              + " is not what datapackage.json states: "
              + bytes
              + " bytes, SHA-256 "
              + found
              + "; stated are "
              + stated.bytes()
              + " bytes, "
              + stated.sha256()
              + "; fetch the package again");
    }
  }
}
