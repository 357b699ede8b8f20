package snick.port;

import com.sun.jna.Native;

/**
 * What the process does on SIGHUP (Linux, macOS): ends in good order, or nothing, as {@code nohup}
 * has it. Java cannot take hold of the signal again once something ignores it.
 */
final class HangUp {
  private static final int SIGHUP = 1;

  /** Larger than {@code struct sigaction} on any machine, bytes. */
  private static final int ACTION_BYTES = 256;

  static {
    Native.register(HangUp.class, "c");
  }

  private final byte[] action = new byte[ACTION_BYTES];

  private HangUp() {}

  /** As it stands. */
  static HangUp present() {
    HangUp present = new HangUp();
    sigaction(SIGHUP, null, present.action);
    return present;
  }

  /** Has it stand so again. */
  void restore() {
    sigaction(SIGHUP, action, null);
  }

  private static native int sigaction(int signal, byte[] action, byte[] before);
}
