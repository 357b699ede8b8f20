package snick.service;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;

/** The name of a socket on this machine as unix(7) lays it out: {@code struct sockaddr_un}. */
final class SocketName {
  private static final int LONGEST_BYTES = 107;

  private SocketName() {}

  /**
   * The structure.
   *
   * @param name an absolute path, or {@code @} and a name that is in no file system
   * @throws IllegalArgumentException if it is neither, or longer than 107 bytes
   */
  static byte[] structure(String name) {
    byte[] path = name.getBytes(StandardCharsets.UTF_8);
    if (!name.startsWith("/") && !name.startsWith("@")) {
      throw new IllegalArgumentException(
          name + " is no absolute path and does not begin with @ either");
    }
    if (path.length > LONGEST_BYTES) {
      throw new IllegalArgumentException(
          name + " has " + path.length + " bytes, more than " + LONGEST_BYTES);
    }
    boolean abstractName = path[0] == '@';
    if (abstractName) {
      path[0] = 0;
    }
    return ByteBuffer.allocate(Short.BYTES + path.length + (abstractName ? 0 : 1))
        .order(ByteOrder.nativeOrder())
        .putShort((short) SocketCalls.AF_UNIX)
        .put(path)
        .array();
  }
}
