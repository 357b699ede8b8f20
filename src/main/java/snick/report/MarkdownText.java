package snick.report;

import java.util.List;
import java.util.stream.Collectors;
import snick.report.plot.Markup;

/** Writes a document as Markdown with tables, for a forum post; pictures become their words. */
final class MarkdownText {
  private static final String MEANT = "\\`*_{}[]<>#|~&";

  private final StringBuilder text = new StringBuilder();

  private MarkdownText() {}

  static String of(Document document) {
    MarkdownText markdown = new MarkdownText();
    markdown.line("# " + escaped(document.title()));
    document.lead().forEach(markdown::block);
    for (Document.Section section : document.sections()) {
      markdown.line("## " + escaped(section.title()));
      section.blocks().forEach(markdown::block);
    }
    return markdown.text.toString();
  }

  /** {@code text} as one line in which nothing is markup. */
  static String escaped(String text) {
    StringBuilder safe = new StringBuilder();
    text.codePoints().forEach(c -> append(safe, c));
    return safe.toString();
  }

  private static void append(StringBuilder safe, int c) {
    if (c == '\n' || c == '\t') {
      safe.append(' ');
    } else if (!Markup.allowed(c)) {
      safe.append('\uFFFD');
    } else {
      safe.append(MEANT.indexOf(c) >= 0 ? "\\" : "").appendCodePoint(c);
    }
  }

  private void line(String line) {
    text.append(line).append("\n\n");
  }

  private void block(Block block) {
    if (block instanceof Block.Paragraph paragraph) {
      line(sentence(paragraph.text()));
    } else if (block instanceof Block.Verdict verdict) {
      line("**" + escaped(verdict.text()) + "**");
    } else if (block instanceof Block.Notice notice) {
      line("**" + escaped(notice.text()) + "**");
    } else if (block instanceof Block.Heading heading) {
      line("### " + escaped(heading.text()));
    } else if (block instanceof Block.Points points) {
      line(
          points.points().stream()
              .map(p -> "- " + escaped((p.text() + " " + p.detail()).strip()))
              .collect(Collectors.joining("\n")));
    } else if (block instanceof Block.Grid grid) {
      grid(grid);
    } else if (block instanceof Block.Photo photo) {
      line("*" + escaped(photo.caption()) + "*");
    } else if (block instanceof Block.Drawing drawing) {
      line("*" + escaped(drawing.picture().description()) + "*");
    }
  }

  /** What begins like a list must not become one. */
  private static String sentence(String text) {
    String safe = escaped(text);
    return safe.matches("^(?:[-+=]|\\d+[.)]).*") ? "\u200B" + safe : safe;
  }

  private void grid(Block.Grid grid) {
    row(grid.columns().stream().map(Block.Column::name).toList());
    text.append(
            grid.columns().stream()
                .map(c -> c.figures() ? "---:" : "---")
                .collect(Collectors.joining(" | ", "| ", " |")))
        .append('\n');
    grid.rows().forEach(this::row);
    text.append('\n');
  }

  private void row(List<String> cells) {
    text.append(
            cells.stream()
                .map(cell -> escaped(cell.replace("\n", "; ")))
                .collect(Collectors.joining(" | ", "| ", " |")))
        .append('\n');
  }
}
