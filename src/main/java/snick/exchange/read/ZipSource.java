package snick.exchange.read;

import java.io.EOFException;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import snick.exchange.json.RefusedPackage;

/**
 * A package as a zip file whose directory was checked. Nothing is unpacked to disk. An entry that
 * grows beyond all proportion while it is read is refused, whatever size it states.
 */
final class ZipSource implements PackageSource {
  /** Deflate reaches 1032 at most; traces reach about 10. */
  private static final long MOST_RATIO = 200;

  private static final long FREE_BYTES = 25L << 20;

  private final Path file;
  private final ZipFile zip;
  private final Map<String, Long> compressedBytes = new HashMap<>();

  private ZipSource(Path file, ZipFile zip) {
    this.file = file;
    this.zip = zip;
  }

  static ZipSource open(Path file) throws IOException {
    var entries = ZipDirectory.check(file);
    try {
      ZipSource source = new ZipSource(file, new ZipFile(file.toFile(), StandardCharsets.UTF_8));
      entries.forEach(e -> source.compressedBytes.put(e.name(), e.compressedBytes()));
      return source;
    } catch (ZipException | EOFException e) {
      throw new RefusedPackage(file + ": damaged zip file, fetch it again: " + e.getMessage(), e);
    }
  }

  @Override
  public String name() {
    return file.toAbsolutePath().normalize().getFileName().toString();
  }

  @Override
  public InputStream open(String name) throws IOException {
    ZipEntry entry = zip.getEntry(name);
    if (entry == null || !compressedBytes.containsKey(name)) {
      throw new RefusedPackage(file + ": no entry '" + name + "'; is this a package?");
    }
    long most = Math.max(FREE_BYTES, MOST_RATIO * compressedBytes.get(name));
    try {
      return new Proportionate(zip.getInputStream(entry), name, most);
    } catch (ZipException | EOFException e) {
      throw damaged(name, e);
    }
  }

  private RefusedPackage damaged(String name, IOException e) {
    return new RefusedPackage(
        file + ": entry '" + name + "' is damaged: " + e.getMessage() + "; fetch it again", e);
  }

  @Override
  public void close() throws IOException {
    zip.close();
  }

  /** Stops at a number of bytes really read. */
  private final class Proportionate extends FilterInputStream {
    private final String name;
    private long left;

    Proportionate(InputStream in, String name, long most) {
      super(in);
      this.name = name;
      this.left = most;
    }

    @Override
    public int read() throws IOException {
      byte[] one = new byte[1];
      return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
    }

    @Override
    public int read(byte[] buffer, int offset, int length) throws IOException {
      int count = readDeflated(buffer, offset, length);
      left -= Math.max(count, 0);
      if (left < 0) {
        throw new RefusedPackage(
            file + ": entry '" + name + "' unpacks to over " + MOST_RATIO + " times its size");
      }
      return count;
    }

    private int readDeflated(byte[] buffer, int offset, int length) throws IOException {
      try {
        return in.read(buffer, offset, length);
      } catch (ZipException | EOFException e) {
        throw damaged(name, e);
      }
    }
  }
}
