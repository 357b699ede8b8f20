package snick.cli.bench;

import java.io.BufferedReader;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import snick.cli.terminal.PlainText;
import snick.force.reading.CalibrationPlan;

/** A person at a terminal, or a script at the other end of a pipe: one line for each step. */
final class TypingOperator implements Operator {
  private final PrintWriter out;
  private final BlockingQueue<Optional<String>> lines = new LinkedBlockingQueue<>();

  /** Reads {@code in} on a thread of its own, which ends with the process. */
  TypingOperator(InputStream in, PrintWriter out) {
    this.out = out;
    Thread reading = new Thread(() -> readLines(in), "typed");
    reading.setDaemon(true);
    reading.start();
  }

  private void readLines(InputStream in) {
    BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
    try {
      reader.lines().forEach(line -> lines.add(Optional.of(line)));
    } finally {
      lines.add(Optional.empty());
    }
  }

  @Override
  public void ask(CalibrationPlan.Step step) {
    out.println(capital(Operator.words(step)) + ", then press Enter (q stops).");
    out.flush();
  }

  @Override
  public void askToCut() {
    out.println("Press Enter, then cut the thread within 30 s (q stops).");
    out.flush();
  }

  private static String capital(String text) {
    return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }

  @Override
  public Word word() {
    Optional<String> line = lines.poll();
    if (line == null) {
      return Word.NONE;
    }
    return line.map(this::said).orElse(Word.STOP);
  }

  /** Only what was offered is taken: a slip must not count as done. */
  private Word said(String line) {
    String word = line.strip();
    if (word.equalsIgnoreCase("q")) {
      return Word.STOP;
    }
    if (word.isEmpty()) {
      return Word.DONE;
    }
    out.println(
        "'"
            + PlainText.inert(word)
            + "' is not offered: press Enter alone to go on, or q to stop.");
    out.flush();
    return Word.NONE;
  }
}
