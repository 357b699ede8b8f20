package snick.report;

import java.util.Base64;
import java.util.List;
import snick.report.plot.Markup;

/**
 * Writes a document as one HTML page that needs nothing from elsewhere and prints on A4 and Letter.
 * The page is well-formed XML too.
 */
final class HtmlPage {
  @SuppressWarnings("InlineFormatString") // forty lines of style read better by themselves
  private static final String HEAD =
      """
      <!DOCTYPE html>
      <html xmlns="http://www.w3.org/1999/xhtml" lang="LANGUAGE">
      <head>
      <meta charset="utf-8" />
      <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <title>TITLE</title>
      <style>
      html { color-scheme: light; background: #fff; }
      body { font: 16px/1.5 system-ui, sans-serif; color: #222; max-width: 54rem; margin: 2rem auto; padding: 0 1rem; overflow-wrap: break-word; }
      h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 .6rem; }
      h2 { font-size: 1.25rem; margin: 2rem 0 .5rem; border-bottom: 2px solid #222; }
      h3 { font-size: 1.02rem; margin: 1.2rem 0 .3rem; }
      p { margin: .5rem 0; } ul { margin: .4rem 0; padding-left: 1.3rem; } li { margin: .25rem 0; } li span { font-size: .86em; color: #555; }
      .verdict { font-size: 1.3rem; line-height: 1.3; font-weight: 700; margin: .6rem 0; }
      .notice { margin-right: 2px; border: 2px solid #222; padding: .4rem .8rem; font-weight: 600; }
      .wide { overflow-x: auto; }
      table { border-collapse: collapse; width: 100%; font-size: .9rem; margin: .6rem 0; }
      th, td { border-bottom: 1px solid #bbb; padding: .25rem .6rem .25rem 0; text-align: left; vertical-align: top; white-space: pre-line; }
      thead th { border-bottom: 2px solid #222; } tbody th { white-space: nowrap; }
      .n { text-align: right; font-variant-numeric: tabular-nums; white-space: pre; }
      figure { margin: 1rem 0; } svg, img { max-width: 100%; height: auto; display: block; }
      figcaption { font-size: .88rem; }
      .figures { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(24rem, 100%), 1fr)); gap: 0 1rem; }
      @media screen and (prefers-color-scheme: dark) {
        html { color-scheme: dark; background: #14181b; } body { color: #e8ebed; }
        h2, thead th, .notice { border-color: #e8ebed; } th, td { border-color: #4a5157; } li span { color: #b3bcc2; }
        svg { background: #fff; border-radius: 4px; }
      }
      @media screen and (max-width: 40rem) {
        table, tbody, tr, td { display: block; } thead { display: none; }
        tr { border-bottom: 2px solid currentcolor; padding: .3rem 0; }
        td, td.n, tbody th { border: 0; padding: .1rem 0; text-align: left; white-space: pre-line; }
        td[data-name]::before { content: attr(data-name) ": "; font-weight: 600; } td:empty { display: none; }
      }
      @page { margin: 10mm 11mm 13mm; @bottom-center { content: "WHAT_IT_IS PAGE " counter(page); font: 8pt sans-serif; } }
      @media print {
        body { font-size: 8.6pt; line-height: 1.25; max-width: none; margin: 0; padding: 0; }
        h1 { font-size: 1.5rem; } h2 { font-size: 12pt; margin: .7rem 0 .3rem; } h3 { font-size: 9.2pt; margin: .5rem 0 .1rem; } li { margin: .1rem 0; }
        .figures { grid-template-columns: 1fr 1fr; } .reasons { columns: 2; column-gap: 1.6rem; font-size: 8pt; line-height: 1.17; } .reasons h3 { margin-top: 0; }
        figcaption { font-size: .82rem; } table { margin: .3rem 0; font-size: 8pt; line-height: 1.2; }
        svg { max-height: 54mm; } img { max-height: 60mm; width: auto; } .figures figure { margin: .2rem 0; } li span { font-size: .9em; }
        h2, h3 { break-after: avoid; } tr, figure, li, .notice { break-inside: avoid; } thead { display: table-header-group; }
        th, td { padding-top: .12rem; padding-bottom: .12rem; } figure { margin: .6rem 0; }
        .figures svg + figcaption { display: none; }
        .wide { overflow-x: visible; } p, li { orphans: 3; widows: 3; }
      }
      </style>
      </head>
      <body>
      """;

  private final StringBuilder html = new StringBuilder();
  private int drawings;

  private HtmlPage() {}

  static String of(Document document) {
    HtmlPage page = new HtmlPage();
    page.html.append(
        HEAD.replace("LANGUAGE", Markup.escaped(document.words().language()))
            .replace("WHAT_IT_IS", document.words().say("report.what_it_is"))
            .replace("PAGE", document.words().say("report.page"))
            .replace("TITLE", Markup.escaped(document.title())));
    page.element("h1", document.title());
    page.blocks(document.lead());
    for (Document.Section section : document.sections()) {
      page.element("h2", section.title());
      page.section(section.blocks());
    }
    return page.html.append("</body>\n</html>\n").toString();
  }

  /** Words alone print in two columns. */
  private void section(List<Block> blocks) {
    boolean words = blocks.stream().allMatch(HtmlPage::isWords);
    html.append(words ? "<div class=\"reasons\">\n" : "");
    blocks(blocks);
    html.append(words ? "</div>\n" : "");
  }

  private static boolean isWords(Block block) {
    return block instanceof Block.Paragraph
        || block instanceof Block.Heading
        || block instanceof Block.Points;
  }

  /** Several pictures in a row stand side by side where there is room. */
  private void blocks(List<Block> blocks) {
    boolean inRow = false;
    for (int i = 0; i < blocks.size(); i++) {
      boolean row = isDrawing(blocks, i) && (isDrawing(blocks, i - 1) || isDrawing(blocks, i + 1));
      if (row != inRow) {
        html.append(row ? "<div class=\"figures\">\n" : "</div>\n");
      }
      inRow = row;
      block(blocks.get(i));
    }
    html.append(inRow ? "</div>\n" : "");
  }

  private static boolean isDrawing(List<Block> blocks, int i) {
    return i >= 0
        && i < blocks.size()
        && (blocks.get(i) instanceof Block.Drawing || blocks.get(i) instanceof Block.Photo);
  }

  private void block(Block block) {
    if (block instanceof Block.Paragraph paragraph) {
      element("p", paragraph.text());
    } else if (block instanceof Block.Verdict verdict) {
      classed("verdict", verdict.text());
    } else if (block instanceof Block.Notice notice) {
      classed("notice", notice.text());
    } else if (block instanceof Block.Heading heading) {
      element("h3", heading.text());
    } else if (block instanceof Block.Points points) {
      html.append("<ul>\n");
      points.points().forEach(this::point);
      html.append("</ul>\n");
    } else if (block instanceof Block.Grid grid) {
      grid(grid);
    } else if (block instanceof Block.Drawing drawing) {
      drawing(drawing);
    } else if (block instanceof Block.Photo photo) {
      photo(photo);
    }
  }

  private void point(Block.Point point) {
    html.append("<li>").append(Markup.escaped(point.text()));
    if (!point.detail().isEmpty()) {
      html.append(" <span>").append(Markup.escaped(point.detail())).append("</span>");
    }
    html.append("</li>\n");
  }

  private void classed(String name, String text) {
    html.append("<p class=\"").append(name).append("\">");
    html.append(Markup.escaped(text)).append("</p>\n");
  }

  private void element(String name, String text) {
    html.append('<').append(name).append('>').append(Markup.escaped(text));
    html.append("</").append(name).append(">\n");
  }

  private void drawing(Block.Drawing drawing) {
    drawings++;
    html.append("<figure>\n").append(drawing.picture().element("d" + drawings)).append('\n');
    element("figcaption", drawing.caption());
    html.append("</figure>\n");
  }

  private void photo(Block.Photo photo) {
    html.append("<figure>\n<img alt=\"").append(Markup.escaped(photo.caption()));
    html.append("\" src=\"data:image/jpeg;base64,");
    html.append(Base64.getEncoder().encodeToString(photo.jpeg())).append("\" />\n");
    element("figcaption", photo.caption());
    html.append("</figure>\n");
  }

  private void grid(Block.Grid grid) {
    html.append("<div class=\"wide\"><table>\n");
    if (grid.headed()) {
      html.append("<thead><tr>");
      grid.columns().forEach(column -> cell("th", column, column.name()));
      html.append("</tr></thead>\n");
    }
    html.append("<tbody>\n");
    for (List<String> row : grid.rows()) {
      html.append("<tr>");
      for (int i = 0; i < row.size(); i++) {
        cell(i == 0 && !grid.headed() ? "th" : "td", grid.columns().get(i), row.get(i));
      }
      html.append("</tr>\n");
    }
    html.append("</tbody></table></div>\n");
  }

  private void cell(String name, Block.Column column, String text) {
    html.append('<').append(name).append(column.figures() ? " class=\"n\"" : "");
    if (name.equals("td") && !column.name().isEmpty()) {
      html.append(" data-name=\"").append(Markup.escaped(column.name())).append('"');
    }
    html.append('>');
    html.append(Markup.escaped(text)).append("</").append(name).append('>');
  }
}
