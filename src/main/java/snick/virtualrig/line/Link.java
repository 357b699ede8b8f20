package snick.virtualrig.line;

import java.io.IOException;

/**
 * What a served rig sends through: one end of a line to at most one host. Never blocks, but for
 * {@link #await}. For one thread.
 */
public interface Link {
  /** What the host opens: a path, or {@code tcp://host:port}. Stays the same when re-published. */
  String port();

  /** Whether a host has the port open. */
  boolean hasReader();

  /** Send what fits now; the number of bytes taken, 0 if none fits or nobody reads. */
  int write(byte[] bytes, int length) throws IOException;

  /** Take what the host sent; the number of bytes, 0 if there are none. */
  int read(byte[] into) throws IOException;

  /** Wait until the host sends something, at most {@code nanos}; may return early. */
  void await(long nanos) throws IOException;

  /** Pull the cable: the port goes away. */
  void hangUp() throws IOException;

  /** Plug the cable in again: the port is back under its name. */
  void publish() throws IOException;
}
