package snick.service;

import com.sun.jna.Native;
import com.sun.jna.NativeLong;

/** The few calls that a datagram to a socket in the file system needs (Linux). */
final class SocketCalls {
  static final int AF_UNIX = 1;
  static final int SOCK_DGRAM = 2;
  static final int SOCK_CLOEXEC = 0x80000;
  static final int MSG_DONTWAIT = 0x40;
  static final int MSG_NOSIGNAL = 0x4000;

  static {
    Native.register(SocketCalls.class, "c");
  }

  private SocketCalls() {}

  /** The error number of this thread's last call. */
  static int lastError() {
    return Native.getLastError();
  }

  static native int socket(int domain, int type, int protocol);

  static native NativeLong sendto(
      int socket, byte[] message, NativeLong length, int flags, byte[] address, int addressLength);

  static native int close(int descriptor);
}
