package snick.cli;

/** Text of a manual page, in the man macros of roff (man(7)). */
final class Roff {
  private final StringBuilder text = new StringBuilder();

  /** A line that is a macro with arguments. */
  Roff macro(String name, String... arguments) {
    text.append('.').append(name);
    for (String argument : arguments) {
      text.append(" \"").append(escaped(argument).replace("\"", "\\(dq")).append('"');
    }
    text.append('\n');
    return this;
  }

  /** A line of running text, which is filled. */
  Roff line(String words) {
    return put(escaped(words.strip()));
  }

  /** A line that is set as it stands. */
  Roff verbatim(String words) {
    return put(escaped(words));
  }

  /** A line in bold. */
  Roff bold(String words) {
    return put("\\fB" + escaped(words) + "\\fR");
  }

  private Roff put(String line) {
    boolean control = line.startsWith(".") || line.startsWith("'");
    text.append(control ? "\\&" : "").append(line).append('\n');
    return this;
  }

  /** Hyphens stay hyphens that can be copied; every character is given in ASCII. */
  static String escaped(String words) {
    StringBuilder escaped = new StringBuilder();
    words
        .codePoints()
        .forEach(
            c -> {
              switch (c) {
                case '\\' -> escaped.append("\\(rs");
                case '-' -> escaped.append("\\-");
                case '^' -> escaped.append("\\(ha");
                case '~' -> escaped.append("\\(ti");
                case '`' -> escaped.append("\\(ga");
                case '\'' -> escaped.append("\\(aq");
                default -> {
                  if (c < 0x7f) {
                    escaped.appendCodePoint(c);
                  } else {
                    escaped.append(String.format("\\[u%04X]", c));
                  }
                }
              }
            });
    return escaped.toString();
  }

  @Override
  public String toString() {
    return text.toString();
  }
}
