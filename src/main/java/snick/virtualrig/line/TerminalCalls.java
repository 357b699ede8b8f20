package snick.virtualrig.line;

import com.sun.jna.Native;
import com.sun.jna.NativeLong;
import com.sun.jna.Platform;
import com.sun.jna.Pointer;

/**
 * The few POSIX calls that a pseudo-terminal needs, and their constants on Linux (generic layout:
 * x86, ARM, RISC-V) and macOS.
 *
 * <p>JNA unpacks its own library on first use, on Linux into a folder of the user's alone,
 * elsewhere into the temporary folder; {@code jna.tmpdir} names another one, {@code
 * jna.boot.library.path} with {@code jna.nounpack=true} a copy on disk. A copy in the system's
 * folders is not taken ({@code jna.nosys} is true by default), since its version may differ.
 */
final class TerminalCalls {
  static final int O_RDWR = 2;
  static final int O_NOCTTY = Platform.isMac() ? 0x20000 : 0x100;
  static final int O_NONBLOCK = Platform.isMac() ? 0x4 : 0x800;
  static final int O_CLOEXEC = Platform.isMac() ? 0x1000000 : 0x80000;
  static final int EINTR = 4;
  static final int EIO = 5;
  static final int EAGAIN = Platform.isMac() ? 35 : 11;
  static final int TCSANOW = 0;
  static final int TCIOFLUSH = Platform.isMac() ? 3 : 2;
  static final short POLLIN = 1;
  static final short POLLOUT = 4;
  static final short POLLHUP = 16;

  /** Larger than {@code struct termios} on any of these systems, bytes. */
  static final int TERMIOS_BYTES = 256;

  /** Size of {@code struct pollfd}: int, short, short; bytes. */
  static final int POLLFD_BYTES = 8;

  static final int POLLFD_EVENTS_OFFSET = 4;
  static final int POLLFD_REVENTS_OFFSET = 6;

  static {
    Native.register(TerminalCalls.class, "c");
  }

  private TerminalCalls() {}

  /** The error number of this thread's last call. */
  static int lastError() {
    return Native.getLastError();
  }

  static native int posix_openpt(int flags);

  static native int grantpt(int descriptor);

  static native int unlockpt(int descriptor);

  static native int ptsname_r(int descriptor, byte[] name, NativeLong size);

  static native int open(String path, int flags);

  static native int close(int descriptor);

  static native NativeLong read(int descriptor, byte[] buffer, NativeLong size);

  static native NativeLong write(int descriptor, byte[] buffer, NativeLong size);

  static native int poll(Pointer descriptors, NativeLong number, int timeoutMillis);

  static native int tcgetattr(int descriptor, Pointer termios);

  static native int tcsetattr(int descriptor, int when, Pointer termios);

  static native void cfmakeraw(Pointer termios);

  static native int tcflush(int descriptor, int queue);
}
