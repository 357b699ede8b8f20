package snick.exchange.read;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import snick.exchange.json.RefusedPackage;
import snick.exchange.write.PackageFiles;

/**
 * The central directory of a zip file (PKWARE, APPNOTE 6.3, sections 4.3.7, 4.3.12 and 4.3.14 to
 * 4.3.16; 4.5.3 for what is over 4 GiB), read strictly before anything is unpacked: plain files of
 * known names, each once, none laid over another.
 */
final class ZipDirectory {
  private static final int END_BYTES = 22;
  private static final int END_MARK = 0x06054b50;
  private static final int ENTRY_BYTES = 46;
  private static final int ENTRY_MARK = 0x02014b50;
  private static final int LOCAL_BYTES = 30;
  private static final int LOCAL_MARK = 0x04034b50;
  private static final int STORED = 0;
  private static final int DEFLATED = 8;
  private static final int UNIX = 3;
  private static final int FILE_TYPE = 0xF000;
  private static final int PLAIN_FILE = 0x8000;

  /** In place of a number that does not fit, which is then kept elsewhere. */
  private static final long ZIP64 = 0xFFFF_FFFFL;

  private static final int ZIP64_COUNT = 0xFFFF;
  private static final int LOCATOR_BYTES = 20;
  private static final int LOCATOR_MARK = 0x07064b50;
  private static final int LARGE_END_BYTES = 56;
  private static final int LARGE_END_MARK = 0x06064b50;
  private static final int LARGE_SIZES = 1;

  private static final int MOST_ENTRIES =
      1 + PackageFiles.DESCRIBED.size() + PackageFiles.MOST_PHOTOS;

  private final String zip;
  private final FileChannel channel;

  private ZipDirectory(Path file, FileChannel channel) {
    this.zip = file.toString();
    this.channel = channel;
  }

  /**
   * An entry.
   *
   * @param name its name
   * @param compressedBytes its bytes in the file
   * @param start where its local header begins
   */
  record Entry(String name, long compressedBytes, long start) {}

  private record Extent(long count, long start) {}

  /** Entries of a zip file in which nothing is wrong. */
  static List<Entry> check(Path file) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
      return new ZipDirectory(file, channel).entries();
    }
  }

  private RefusedPackage refused(String why) {
    return new RefusedPackage(zip + ": " + why);
  }

  private ByteBuffer read(long position, int length) throws IOException {
    if (!(position >= 0 && position <= channel.size() - length)) {
      throw refused("the zip file is torn: it refers to bytes beyond its end; fetch it again");
    }
    ByteBuffer buffer = ByteBuffer.allocate(length).order(ByteOrder.LITTLE_ENDIAN);
    while (buffer.hasRemaining() && channel.read(buffer, position + buffer.position()) >= 0) {}
    return buffer.flip();
  }

  private List<Entry> entries() throws IOException {
    Extent extent = extent();
    if (!(extent.count() >= 0 && extent.count() <= MOST_ENTRIES)) {
      throw refused(extent.count() + " entries, a package has at most " + MOST_ENTRIES);
    }
    List<Entry> entries = new ArrayList<>();
    Set<String> names = new HashSet<>();
    long position = extent.start();
    for (int i = 0; i < extent.count(); i++) {
      ByteBuffer fixed = read(position, ENTRY_BYTES);
      Entry entry = entry(fixed, position);
      if (!names.add(entry.name())) {
        throw refused("entry '" + entry.name() + "' is there twice; do not trust it");
      }
      entries.add(entry);
      position += ENTRY_BYTES + variableBytes(fixed);
    }
    requireApart(entries, extent.start());
    return entries;
  }

  /** Where the directory lies: up to the end record, or up to the one for over 4 GiB before it. */
  private Extent extent() throws IOException {
    long end = channel.size() - END_BYTES;
    ByteBuffer tail = read(end, END_BYTES);
    if (tail.getInt(0) != END_MARK || tail.getShort(20) != 0) {
      throw refused("not a zip file, or bytes follow its end; ask the sender for a plain one");
    }
    int count = tail.getShort(10) & 0xFFFF;
    long bytes = tail.getInt(12) & ZIP64;
    long start = tail.getInt(16) & ZIP64;
    if (count == ZIP64_COUNT || bytes == ZIP64 || start == ZIP64) {
      return largeExtent(end - LOCATOR_BYTES);
    }
    return adjacent(new Extent(count, start), bytes, end);
  }

  private Extent largeExtent(long locatorAt) throws IOException {
    ByteBuffer locator = read(locatorAt, LOCATOR_BYTES);
    long recordAt = locator.getLong(8);
    ByteBuffer record = read(recordAt, LARGE_END_BYTES);
    if (locator.getInt(0) != LOCATOR_MARK
        || record.getInt(0) != LARGE_END_MARK
        || recordAt + LARGE_END_BYTES != locatorAt) {
      throw refused("its end record for over 4 GiB is damaged; fetch it again");
    }
    return adjacent(
        new Extent(record.getLong(32), record.getLong(48)), record.getLong(40), recordAt);
  }

  private Extent adjacent(Extent extent, long bytes, long end) {
    if (!(extent.start() >= 0 && bytes >= 0 && extent.start() == end - bytes)) {
      throw refused("its directory does not end where the file ends; fetch it again");
    }
    return extent;
  }

  private static int variableBytes(ByteBuffer entry) {
    return (entry.getShort(28) & 0xFFFF)
        + (entry.getShort(30) & 0xFFFF)
        + (entry.getShort(32) & 0xFFFF);
  }

  private Entry entry(ByteBuffer fixed, long position) throws IOException {
    if (fixed.getInt(0) != ENTRY_MARK) {
      throw refused("its directory is damaged; fetch it again");
    }
    String name =
        StandardCharsets.UTF_8
            .decode(read(position + ENTRY_BYTES, fixed.getShort(28) & 0xFFFF))
            .toString();
    if (!PackageFiles.knows(name)) {
      throw refused(
          "entry '"
              + RefusedPackage.shown(name)
              + "' is none of "
              + PackageFiles.DESCRIBED
              + "; zip the files themselves, without their folder");
    }
    int method = fixed.getShort(10) & 0xFFFF;
    boolean encrypted = (fixed.getShort(8) & 1) != 0;
    if ((method != STORED && method != DEFLATED) || encrypted) {
      throw refused(
          "entry '" + name + "' is encrypted or packed in an unknown way (" + method + ")");
    }
    int type = (fixed.getInt(38) >>> 16) & FILE_TYPE;
    if (fixed.get(5) == UNIX && type != 0 && type != PLAIN_FILE) {
      throw refused("entry '" + name + "' is a link or no plain file; do not trust it");
    }
    Entry found = sized(name, fixed, position);
    if (!(found.start() >= 0 && found.compressedBytes() >= 0)) {
      throw refused("entry '" + name + "' has a size or place below 0; do not trust it");
    }
    requireSameName(name, found.start());
    return found;
  }

  private Entry sized(String name, ByteBuffer fixed, long position) throws IOException {
    long compressed = fixed.getInt(20) & ZIP64;
    long start = fixed.getInt(42) & ZIP64;
    ByteBuffer large =
        largeSizes(
            read(
                position + ENTRY_BYTES + (fixed.getShort(28) & 0xFFFF),
                fixed.getShort(30) & 0xFFFF));
    if ((fixed.getInt(24) & ZIP64) == ZIP64) {
      nextLarge(name, large);
    }
    return new Entry(
        name,
        compressed == ZIP64 ? nextLarge(name, large) : compressed,
        start == ZIP64 ? nextLarge(name, large) : start);
  }

  /** The extra field of header ID 1 (section 4.5.3); empty if there is none. */
  private static ByteBuffer largeSizes(ByteBuffer extra) {
    while (extra.remaining() >= 4) {
      int id = extra.getShort() & 0xFFFF;
      int length = Math.min(extra.getShort() & 0xFFFF, extra.remaining());
      if (id == LARGE_SIZES) {
        return extra.slice(extra.position(), length).order(ByteOrder.LITTLE_ENDIAN);
      }
      extra.position(extra.position() + length);
    }
    return ByteBuffer.allocate(0);
  }

  private long nextLarge(String name, ByteBuffer large) {
    if (large.remaining() < Long.BYTES) {
      throw refused(
          "entry '" + name + "' is over 4 GiB and does not say how large; fetch it again");
    }
    return large.getLong();
  }

  private void requireSameName(String name, long start) throws IOException {
    ByteBuffer local = read(start, LOCAL_BYTES);
    String localName =
        StandardCharsets.UTF_8
            .decode(read(start + LOCAL_BYTES, local.getShort(26) & 0xFFFF))
            .toString();
    if (local.getInt(0) != LOCAL_MARK || !localName.equals(name)) {
      throw refused("entry '" + name + "' has two names; do not trust it");
    }
  }

  private void requireApart(List<Entry> entries, long directory) throws IOException {
    List<Entry> inOrder = new ArrayList<>(entries);
    inOrder.sort(Comparator.comparingLong(Entry::start));
    for (int i = 0; i < inOrder.size(); i++) {
      Entry entry = inOrder.get(i);
      ByteBuffer local = read(entry.start(), LOCAL_BYTES);
      long end =
          entry.start()
              + LOCAL_BYTES
              + (local.getShort(26) & 0xFFFF)
              + (local.getShort(28) & 0xFFFF)
              + entry.compressedBytes();
      long next = i + 1 < inOrder.size() ? inOrder.get(i + 1).start() : directory;
      if (end > next) {
        throw refused("entry '" + entry.name() + "' lies over another; do not trust it");
      }
    }
  }
}
