package snick.virtualrig.line;

import com.sun.jna.Memory;
import com.sun.jna.NativeLong;
import com.sun.jna.Platform;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.concurrent.locks.LockSupport;

/**
 * The device's end of a pseudo-terminal (POSIX.1-2017, posix_openpt), its other end published as a
 * symbolic link. The terminal's number changes on each {@link #publish}; the link's name does not.
 *
 * <p>As on a real line without flow control, bytes sent while nobody reads are gone: what a reader
 * left behind when it closed is thrown away.
 */
public final class PseudoTerminal implements Link {
  private static final long ABSENT_NANOS = 5_000_000;
  private static final long NANOS_PER_MILLI = 1_000_000;
  private static final int NAME_BYTES = 128;
  private static final int CLOSED = Integer.MIN_VALUE;

  private final Path link;
  private final Memory pollDescriptor = new Memory(TerminalCalls.POLLFD_BYTES);
  private int master = CLOSED;
  private String terminal = "";
  private boolean readerSeen;

  private PseudoTerminal(Path link) {
    this.link = link;
  }

  /**
   * Open a pseudo-terminal and publish it.
   *
   * @param link symbolic link to make; an older link of this name is replaced
   * @throws IOException if the system gives no pseudo-terminal or the link cannot be made
   */
  public static PseudoTerminal publishedAs(Path link) throws IOException {
    PseudoTerminal opened = new PseudoTerminal(link.toAbsolutePath());
    opened.publish();
    return opened;
  }

  /** Whether this system is known to have pseudo-terminals. */
  public static boolean supported() {
    return Platform.isLinux() || Platform.isMac();
  }

  @Override
  public String port() {
    return link.toString();
  }

  /** The path of the terminal behind the link, for example {@code /dev/pts/4}. */
  String terminal() {
    return terminal;
  }

  @Override
  public void publish() throws IOException {
    if (master != CLOSED) {
      throw new IllegalStateException(link + " is published already");
    }
    master =
        checked(
            "posix_openpt",
            TerminalCalls.posix_openpt(
                TerminalCalls.O_RDWR
                    | TerminalCalls.O_NOCTTY
                    | TerminalCalls.O_NONBLOCK
                    | TerminalCalls.O_CLOEXEC));
    readerSeen = false;
    try {
      checked("grantpt", TerminalCalls.grantpt(master));
      checked("unlockpt", TerminalCalls.unlockpt(master));
      terminal = name();
      makeRaw();
      discardStale();
      linkTo(Path.of(terminal));
    } catch (IOException failure) {
      closeMaster();
      throw failure;
    }
  }

  private String name() throws IOException {
    byte[] name = new byte[NAME_BYTES];
    checked("ptsname_r", -TerminalCalls.ptsname_r(master, name, new NativeLong(name.length)));
    int length = 0;
    while (name[length] != 0) {
      length++;
    }
    return new String(name, 0, length, StandardCharsets.UTF_8);
  }

  /** Without this a terminal echoes, and turns line ends and control bytes over. */
  private void makeRaw() throws IOException {
    try (Memory termios = new Memory(TerminalCalls.TERMIOS_BYTES)) {
      checked("tcgetattr", TerminalCalls.tcgetattr(master, termios));
      TerminalCalls.cfmakeraw(termios);
      checked("tcsetattr", TerminalCalls.tcsetattr(master, TerminalCalls.TCSANOW, termios));
    }
  }

  /** Opened and closed once, the other end reports hang-up whenever nobody has it open. */
  private void discardStale() {
    int slave =
        TerminalCalls.open(
            terminal,
            TerminalCalls.O_RDWR
                | TerminalCalls.O_NOCTTY
                | TerminalCalls.O_NONBLOCK
                | TerminalCalls.O_CLOEXEC);
    if (slave >= 0) {
      TerminalCalls.tcflush(slave, TerminalCalls.TCIOFLUSH);
      TerminalCalls.close(slave);
    }
  }

  private void linkTo(Path target) throws IOException {
    if (Files.exists(link, LinkOption.NOFOLLOW_LINKS) && !Files.isSymbolicLink(link)) {
      throw new IOException(link + " is there and is no symbolic link; name another path");
    }
    Path fresh = link.resolveSibling("." + link.getFileName() + "." + target.getFileName());
    Files.deleteIfExists(fresh);
    Files.createSymbolicLink(fresh, target);
    Files.move(fresh, link, StandardCopyOption.ATOMIC_MOVE);
  }

  private static int checked(String call, int result) throws IOException {
    if (result < 0) {
      throw new NoPseudoTerminalException(call, TerminalCalls.lastError());
    }
    return result;
  }

  @Override
  public boolean hasReader() {
    if (master == CLOSED) {
      return false;
    }
    boolean reader = (poll(TerminalCalls.POLLIN, 0) & TerminalCalls.POLLHUP) == 0;
    if (readerSeen && !reader) {
      discardStale();
    }
    readerSeen = reader;
    return reader;
  }

  private int poll(short events, int timeoutMillis) {
    pollDescriptor.setInt(0, master);
    pollDescriptor.setShort(TerminalCalls.POLLFD_EVENTS_OFFSET, events);
    pollDescriptor.setShort(TerminalCalls.POLLFD_REVENTS_OFFSET, (short) 0);
    TerminalCalls.poll(pollDescriptor, new NativeLong(1), timeoutMillis);
    return pollDescriptor.getShort(TerminalCalls.POLLFD_REVENTS_OFFSET);
  }

  @Override
  public int write(byte[] bytes, int length) throws IOException {
    if (master == CLOSED) {
      return 0;
    }
    return moved("write", TerminalCalls.write(master, bytes, new NativeLong(length)).longValue());
  }

  @Override
  public int read(byte[] into) throws IOException {
    if (master == CLOSED) {
      return 0;
    }
    return moved("read", TerminalCalls.read(master, into, new NativeLong(into.length)).longValue());
  }

  /** Nobody there (EIO), nothing there or no room (EAGAIN) are no errors of a line. */
  private int moved(String call, long result) throws IOException {
    if (result >= 0) {
      return (int) result;
    }
    int error = TerminalCalls.lastError();
    if (error == TerminalCalls.EAGAIN
        || error == TerminalCalls.EIO
        || error == TerminalCalls.EINTR) {
      return 0;
    }
    throw new IOException(call + " on " + terminal + " failed, error " + error);
  }

  @Override
  public void await(long nanos) {
    if (!hasReader()) {
      LockSupport.parkNanos(Math.min(nanos, ABSENT_NANOS));
    } else if (nanos < NANOS_PER_MILLI) {
      LockSupport.parkNanos(nanos);
    } else {
      poll(TerminalCalls.POLLIN, (int) Math.min(nanos / NANOS_PER_MILLI, Integer.MAX_VALUE));
    }
  }

  @Override
  public void hangUp() throws IOException {
    if (master == CLOSED) {
      return;
    }
    closeMaster();
    if (Files.isSymbolicLink(link) && Files.readSymbolicLink(link).equals(Path.of(terminal))) {
      Files.delete(link);
    }
  }

  private void closeMaster() {
    TerminalCalls.close(master);
    master = CLOSED;
  }
}
