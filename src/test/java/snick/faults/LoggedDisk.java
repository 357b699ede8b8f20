package snick.faults;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;

/**
 * A folder as a power cut at some instant leaves it, rebuilt from what {@code disk_log.c} wrote
 * down: what was synced is there; of what was written later, all, nothing, or any of its sectors.
 */
final class LoggedDisk {
  private static final int SECTOR_BYTES = 512;
  private static final int HEAD_BYTES = 17;

  private final ByteBuffer log;
  private final boolean keepsSyncs;
  private final Map<Integer, String> opened = new HashMap<>();
  private final Map<String, LoggedFile> files = new HashMap<>();
  private final StringBuilder printed = new StringBuilder();

  /** One file: its synced bytes, and what was done to it since. */
  private static final class LoggedFile {
    private byte[] synced = {};
    private final List<Change> since = new ArrayList<>();

    private void sync() {
      for (Change change : since) {
        synced = change.on(synced);
      }
      since.clear();
    }
  }

  /** Bytes written at a place, or the file cut to {@code place} if there are none. */
  private static final class Change {
    private final int place;
    private final byte[] bytes;

    private Change(int place, byte[] bytes) {
      this.place = place;
      this.bytes = bytes;
    }

    private byte[] on(byte[] content) {
      if (bytes == null) {
        return Arrays.copyOf(content, place);
      }
      byte[] longer = Arrays.copyOf(content, Math.max(content.length, place + bytes.length));
      System.arraycopy(bytes, 0, longer, place, bytes.length);
      return longer;
    }

    private byte[] sectorsOn(byte[] content, SplittableRandom random) {
      byte[] result = content;
      for (int from = 0; bytes != null && from < bytes.length; from += SECTOR_BYTES) {
        if (random.nextBoolean()) {
          int end = Math.min(bytes.length, from + SECTOR_BYTES);
          result = new Change(place + from, Arrays.copyOfRange(bytes, from, end)).on(result);
        }
      }
      return result;
    }
  }

  /**
   * @param keepsSyncs whether what was synced is there; a disk that lies keeps nothing
   */
  LoggedDisk(Path log, boolean keepsSyncs) throws IOException {
    this.log = ByteBuffer.wrap(Files.readAllBytes(log)).order(ByteOrder.nativeOrder());
    this.keepsSyncs = keepsSyncs;
  }

  int bytes() {
    return log.limit();
  }

  /** What was printed until then. */
  String printed() {
    return printed.toString();
  }

  /** Goes on with the log up to a byte of it. */
  void runTo(int end) {
    while (log.position() + HEAD_BYTES <= end) {
      char kind = (char) log.get();
      int file = log.getInt();
      long place = log.getLong();
      byte[] bytes = new byte[log.getInt()];
      log.get(bytes);
      take(kind, file, place, bytes);
    }
  }

  private void take(char kind, int file, long place, byte[] bytes) {
    String text = new String(bytes, StandardCharsets.UTF_8);
    switch (kind) {
      case 'O' -> {
        opened.put(file, text);
        files.computeIfAbsent(text, path -> new LoggedFile());
      }
      case 'W' -> of(file).since.add(new Change((int) place, bytes));
      case 'T' -> of(file).since.add(new Change((int) place, null));
      case 'S' -> {
        if (keepsSyncs) {
          of(file).sync();
        }
      }
      case 'U' -> files.remove(text);
      case 'P' -> printed.append(text);
      default -> throw new AssertionError("no kind of record: " + kind);
    }
  }

  private LoggedFile of(int file) {
    return files.get(opened.get(file));
  }

  /** Writes the store's files as they are found when power comes back. */
  void after(Path directory, SplittableRandom random) throws IOException {
    Files.createDirectories(directory);
    for (Map.Entry<String, LoggedFile> file : files.entrySet()) {
      String name = Path.of(file.getKey()).getFileName().toString();
      if (name.startsWith("snick.db") && !name.endsWith("-shm")) {
        Files.write(directory.resolve(name), left(file.getValue(), random));
      }
    }
  }

  private static byte[] left(LoggedFile file, SplittableRandom random) {
    byte[] content = file.synced;
    int fate = random.nextInt(3);
    for (Change change : file.since) {
      if (fate == 1) {
        content = change.on(content);
      } else if (fate == 2) {
        content = change.sectorsOn(content, random);
      }
    }
    return content;
  }
}
