package snick.store.trace;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.UUID;
import snick.cut.Trace;
import snick.store.database.StoreFile;

/**
 * Traces laid down in a file, then read again in the same order, so that they need not lie in
 * memory. The file is gone when this is closed; where the system can unlink an open file, also
 * after a kill. Used by one thread.
 */
public final class TraceSpool implements AutoCloseable {
  private static final int BUFFER_BYTES = 1 << 16;

  private final FileChannel channel;
  private final DataOutputStream out;
  private DataInputStream in;

  private TraceSpool(FileChannel channel) {
    this.channel = channel;
    this.out =
        new DataOutputStream(
            new BufferedOutputStream(Channels.newOutputStream(channel), BUFFER_BYTES));
    this.in = new DataInputStream(Channels.newInputStream(channel));
  }

  /** An empty one in a file of its own in {@code directory}, the owner's alone. */
  public static TraceSpool in(Path directory) throws IOException {
    return new TraceSpool(
        FileChannel.open(
            directory.resolve(".snick-" + UUID.randomUUID()),
            java.util.Set.of(
                StandardOpenOption.CREATE_NEW,
                StandardOpenOption.READ,
                StandardOpenOption.WRITE,
                StandardOpenOption.DELETE_ON_CLOSE),
            StoreFile.ownersAlone(directory, "rw-------")));
  }

  /** Lays a trace down. */
  public void add(Trace trace) throws IOException {
    byte[] bytes = TraceBlob.encode(trace);
    out.writeInt(bytes.length);
    out.write(bytes);
  }

  /** Ends the laying down; {@link #next} gives the first trace. */
  public void rewind() throws IOException {
    out.flush();
    channel.position(0);
    in =
        new DataInputStream(
            new BufferedInputStream(Channels.newInputStream(channel), BUFFER_BYTES));
  }

  /** The next trace, which must be there. */
  public Trace next() throws IOException {
    byte[] bytes = new byte[in.readInt()];
    in.readFully(bytes);
    return TraceBlob.decode(bytes);
  }

  @Override
  public void close() throws IOException {
    channel.close();
  }
}
