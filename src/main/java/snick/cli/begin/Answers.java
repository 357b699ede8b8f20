package snick.cli.begin;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;

/**
 * Asks a person at a terminal, or a script at the other end of a pipe. Reads no further than the
 * end of the line: the next is for the step that follows, which reads the same terminal.
 *
 * @param in where the answers come from; must not read ahead
 * @param out where questions go
 */
record Answers(InputStream in, PrintWriter out) {
  private static final int LONGEST = 500;

  /**
   * The answer, or {@code usual} if it is empty.
   *
   * @throws Refusal if there is none any more, or it is q
   */
  String to(String question, String usual) {
    out.print(PlainText.inert(question) + (usual.isEmpty() ? " " : " [" + usual + "] "));
    out.flush();
    String answer = line().strip();
    if (answer.equalsIgnoreCase("q")) {
      throw Refusal.failed("stopped; what was done is kept, and 'snick begin' begins again", null);
    }
    return answer.isEmpty() ? usual : answer;
  }

  private String line() {
    ByteArrayOutputStream line = new ByteArrayOutputStream();
    try {
      int b = in.read();
      while (b >= 0 && b != '\n' && line.size() < LONGEST) {
        line.write(b);
        b = in.read();
      }
      if (b < 0 && line.size() == 0) {
        throw Refusal.usage(
            "input ended before the question was answered: begin needs somebody to answer");
      }
    } catch (IOException e) {
      throw Refusal.failed("the answer cannot be read: " + e.getMessage(), e);
    }
    return line.toString(StandardCharsets.UTF_8);
  }
}
