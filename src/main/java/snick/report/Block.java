package snick.report;

import java.util.List;
import snick.report.plot.Picture;

/** A part of a report. Texts are plain: whoever writes them out makes them safe. */
sealed interface Block {
  /** Running text. */
  record Paragraph(String text) implements Block {}

  /** Something that must not be overlooked. */
  record Notice(String text) implements Block {}

  /** What came out, in one sentence, to be seen first. */
  record Verdict(String text) implements Block {}

  /** A heading below that of the section. */
  record Heading(String text) implements Block {}

  /** One point of a list; {@code detail} may be empty, it stands back behind the text. */
  record Point(String text, String detail) {}

  /** One point after the other. */
  record Points(List<Point> points) implements Block {
    public Points {
      points = List.copyOf(points);
    }

    static Points of(List<String> texts) {
      return new Points(texts.stream().map(text -> new Point(text, "")).toList());
    }
  }

  /** A column's heading, empty if it needs none, and whether it holds figures. */
  record Column(String name, boolean figures) {
    static Column words(String name) {
      return new Column(name, false);
    }

    static Column figures(String name) {
      return new Column(name, true);
    }
  }

  /** Rows have as many cells as there are columns; a cell's lines are parted by line feeds. */
  record Grid(List<Column> columns, List<List<String>> rows) implements Block {
    public Grid {
      columns = List.copyOf(columns);
      rows = rows.stream().map(List::copyOf).toList();
    }

    /** Whether its columns have names. */
    boolean headed() {
      return columns.stream().anyMatch(column -> !column.name().isEmpty());
    }
  }

  /** A photo, as JPEG, with what is to be seen in it. */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  record Photo(byte[] jpeg, String caption) implements Block {}

  /** A picture with what is to be seen in it. */
  record Drawing(Picture picture, String caption) implements Block {}
}
