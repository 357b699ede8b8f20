package snick.cli.terminal;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/** Columns for people: text left, numbers right, two spaces between; untrusted text made inert. */
public final class Table {
  private final List<String> heads;
  private final boolean[] right;
  private final List<List<String>> rows = new ArrayList<>();

  /** Column heads; a head that begins with {@code >} makes a column of numbers. */
  public Table(String... heads) {
    this.heads = List.of(heads).stream().map(h -> h.replaceFirst("^>", "")).toList();
    this.right = new boolean[heads.length];
    for (int i = 0; i < heads.length; i++) {
      right[i] = heads[i].startsWith(">");
    }
  }

  /** One row; as many cells as there are heads. */
  public void row(Object... cells) {
    if (cells.length != heads.size()) {
      throw new IllegalArgumentException(cells.length + " cells under " + heads.size() + " heads");
    }
    rows.add(
        List.of(cells).stream()
            .map(c -> PlainText.inert(c.toString()).replace('\n', ' '))
            .toList());
  }

  /** Prints heads and rows, each column as wide as its widest cell. */
  public void print(PrintWriter out) {
    int[] widths = IntStream.range(0, heads.size()).map(this::width).toArray();
    line(out, heads, widths);
    rows.forEach(row -> line(out, row, widths));
  }

  private int width(int column) {
    return rows.stream()
        .mapToInt(row -> row.get(column).length())
        .reduce(heads.get(column).length(), Math::max);
  }

  private void line(PrintWriter out, List<String> cells, int[] widths) {
    StringBuilder line = new StringBuilder();
    for (int i = 0; i < widths.length; i++) {
      String padding = " ".repeat(widths[i] - cells.get(i).length());
      line.append(i == 0 ? "" : "  ");
      line.append(right[i] ? padding + cells.get(i) : cells.get(i) + padding);
    }
    out.println(line.toString().stripTrailing());
  }
}
