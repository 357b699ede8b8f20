package snick.cli.terminal;

import java.io.PrintWriter;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;

/**
 * Progress on a person's terminal: one line on stderr, rewritten; silent when it is not a terminal.
 */
public final class Progress {
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
  public Progress(PrintWriter err, boolean shown, long totalBytes) {
    this.err = err;
    this.shown = shown;
    this.totalBytes = totalBytes;
  }

  /** So far {@code bytes} bytes are done, with {@code found} events. */
  public void at(long bytes, long found) {
    draw(
        () ->
            "%s, %s events"
                .formatted(totalBytes > 0 ? percent(bytes, totalBytes) : megabytes(bytes), found));
  }

  /** So much of {@code total}, 0 if unknown, is done of what is being done, such as checking. */
  public void at(String doing, long done, long total) {
    draw(() -> doing + " …" + (total > 0 ? " " + percent(done, total) : "     "));
  }

  private static String percent(long done, long total) {
    return String.format(Locale.ROOT, "%3.0f %%", 100.0 * done / total);
  }

  private static String megabytes(long bytes) {
    return String.format(Locale.ROOT, "%.1f MB", bytes / 1e6);
  }

  private void draw(Supplier<String> line) {
    long now = System.nanoTime();
    if (!shown || now - lastNanos < EVERY_NANOS) {
      return;
    }
    lastNanos = now;
    drawn = true;
    err.print("\r" + line.get() + " ");
    err.flush();
  }

  /** Takes the line away. */
  public void done() {
    if (drawn) {
      err.print("\r" + " ".repeat(40) + "\r");
      err.flush();
    }
  }
}
