package snick.cli.terminal;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import snick.phrase.Phrase;

/** Columns for people: text left, numbers right, two spaces between; untrusted text made inert. */
public final class Table {
  private final List<String> heads;
  private final boolean[] right;
  private final int[] widest;
  private final List<List<String>> rows = new ArrayList<>();

  /** Column heads; a head that begins with {@code >} makes a column of numbers. */
  public Table(String... heads) {
    this.heads = List.of(heads).stream().map(h -> h.replaceFirst("^>", "")).toList();
    this.right = new boolean[heads.length];
    for (int i = 0; i < heads.length; i++) {
      right[i] = heads[i].startsWith(">");
    }
    this.widest = new int[heads.length];
    Arrays.fill(widest, Integer.MAX_VALUE);
  }

  /** Breaks the cells of a column, from 0, so that none is wider than {@code letters}. */
  public Table broken(int column, int letters) {
    widest[column] = letters;
    return this;
  }

  /** One row; as many cells as there are heads. */
  public void row(Object... cells) {
    if (cells.length != heads.size()) {
      throw new IllegalArgumentException(cells.length + " cells under " + heads.size() + " heads");
    }
    rows.add(List.of(cells).stream().map(Table::cell).toList());
  }

  private static String cell(Object told) {
    String text = told instanceof Phrase phrase ? Said.raw(phrase) : told.toString();
    return PlainText.inert(text).replace('\n', ' ');
  }

  /** Prints heads and rows, each column as wide as its widest cell. */
  public void print(PrintWriter out) {
    List<List<String>> lines = new ArrayList<>(List.of(heads));
    rows.forEach(row -> lines.addAll(lines(row)));
    int[] widths = IntStream.range(0, heads.size()).map(i -> width(lines, i)).toArray();
    lines.forEach(line -> line(out, line, widths));
  }

  /** A row as lines: more than one where a cell is broken. */
  private List<List<String>> lines(List<String> row) {
    List<List<String>> cells =
        IntStream.range(0, row.size())
            .mapToObj(i -> BrokenText.lines(row.get(i), widest[i]))
            .toList();
    int most = cells.stream().mapToInt(List::size).max().orElse(0);
    return IntStream.range(0, most)
        .mapToObj(at -> cells.stream().map(c -> at < c.size() ? c.get(at) : "").toList())
        .toList();
  }

  private static int width(List<List<String>> lines, int column) {
    return lines.stream().mapToInt(line -> line.get(column).length()).max().orElse(0);
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
