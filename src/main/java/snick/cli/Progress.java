package snick.cli;

import java.io.PrintWriter;
import java.util.Locale;
import java.util.concurrent.TimeUnit;

/**
 * Progress on a person's terminal: one line on stderr, rewritten; silent when it is not a terminal.
 */
final class Progress {
  private static final long EVERY_NANOS = TimeUnit.MILLISECONDS.toNanos(200);

  private final PrintWriter err;
  private final boolean shown;
  private final long totalBytes;
  private long lastNanos = System.nanoTime();
  private boolean drawn;

  /**
   * Progress over {@code totalBytes} bytes.
   *
   * @param totalBytes 0 if unknown
   * @param shown whether a person watches
   */
  Progress(PrintWriter err, boolean shown, long totalBytes) {
    this.err = err;
    this.shown = shown;
    this.totalBytes = totalBytes;
  }

  /** So far {@code bytes} bytes are done, with {@code found} events. */
  void at(long bytes, long found) {
    long now = System.nanoTime();
    if (!shown || now - lastNanos < EVERY_NANOS) {
      return;
    }
    lastNanos = now;
    drawn = true;
    String share =
        totalBytes > 0
            ? String.format(Locale.ROOT, "%3.0f %%", 100.0 * bytes / totalBytes)
            : String.format(Locale.ROOT, "%.1f MB", bytes / 1e6);
    err.print("\r" + share + ", " + found + " events ");
    err.flush();
  }

  /** Takes the line away. */
  void done() {
    if (drawn) {
      err.print("\r" + " ".repeat(40) + "\r");
      err.flush();
    }
  }
}
