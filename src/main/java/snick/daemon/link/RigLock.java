package snick.daemon.link;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import snick.port.PortAddress;

/**
 * One recorder for each rig: an advisory file lock that the operating system takes back when its
 * holder dies, however it dies. The file names the holder.
 */
public final class RigLock implements AutoCloseable {
  private static final int MOST_HOLDER_BYTES = 20;

  private final FileChannel channel;
  private final FileLock lock;

  private RigLock(FileChannel channel, FileLock lock) {
    this.channel = channel;
    this.lock = lock;
  }

  /**
   * Takes the lock of {@code rig}.
   *
   * @param folder where lock files lie; made if needed
   * @param rig name of the rig's port
   * @throws RigInUseException if another process, or this one, has it
   */
  public static RigLock take(Path folder, String rig) throws IOException, RigInUseException {
    Files.createDirectories(folder);
    Path file = folder.resolve("rig-" + rig.replaceAll("[^A-Za-z0-9.-]", "_") + ".lock");
    FileChannel channel =
        FileChannel.open(
            file, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
    try {
      FileLock lock = channel.tryLock(Long.MAX_VALUE - 1, 1, false);
      if (lock == null) {
        throw new RigInUseException(rig, holder(channel));
      }
      signBy(channel, ProcessHandle.current().pid());
      return new RigLock(channel, lock);
    } catch (OverlappingFileLockException e) {
      channel.close();
      throw new RigInUseException(rig, Long.toString(ProcessHandle.current().pid()), e);
    } catch (IOException | RigInUseException e) {
      channel.close();
      throw e;
    }
  }

  /** Name of the lock of {@code rig}: the same device has one, whatever link it is named by. */
  public static String nameOf(PortAddress rig) throws IOException {
    if (rig instanceof PortAddress.SerialDevice device && Files.exists(device.path())) {
      return device.path().toRealPath().toString();
    }
    return rig.text();
  }

  private static String holder(FileChannel channel) throws IOException {
    ByteBuffer text = ByteBuffer.allocate(MOST_HOLDER_BYTES);
    channel.read(text, 0);
    String holder = new String(text.array(), 0, text.position(), StandardCharsets.US_ASCII);
    return holder.replaceAll("[^0-9]", "");
  }

  private static void signBy(FileChannel channel, long pid) throws IOException {
    channel.truncate(0);
    channel.write(ByteBuffer.wrap((pid + "\n").getBytes(StandardCharsets.US_ASCII)), 0);
  }

  @Override
  public void close() throws IOException {
    try (channel) {
      lock.release();
    }
  }
}
