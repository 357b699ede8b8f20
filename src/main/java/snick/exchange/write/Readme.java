package snick.exchange.write;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import snick.exchange.table.PackageTable;
import snick.quantity.Attribute;
import snick.store.record.Credit;

/** {@code README.md} of a package, for a reader who has nothing but the files. */
final class Readme {
  private Readme() {}

  static String of(Attribution attribution, int cuts) {
    StringBuilder tables = new StringBuilder();
    for (PackageTable<?> table : PackageTable.ALL) {
      append(tables, table);
    }
    return String.format(
        Locale.ROOT,
        """
      # %s

      Raw force traces of edges. An edge is pressed on a taut test filament until the filament parts;
      a load cell and a 24-bit converter read the force. The lower the force at the break, the keener
      the edge. %s

      In-house measurements, not an accredited certificate. The traces are raw: recheck them with
      tools of your own. Working with a bare edge needs a guard in front of the line, a clamped blade,
      a cut-resistant glove and eye protection.

      Licence: %s
      %s
      ## Files

      A Frictionless Data Package, version 2: `datapackage.json` lists every file with its SHA-256 and
      the columns of the tables with their units. Tables are CSV (RFC 4180, UTF-8, decimal point);
      an empty cell means that there is no value. Times are UTC. Numbers read back exactly.
      Reading above zero, in loading direction: `polarity * (counts - zero_before_counts)`.

      - `calibration.json`: what counts are worth. The reading above zero is a polynomial of the force
        in N, lowest power first, with the covariance of its coefficients; beyond the range the
        tangent at its end is followed. `terms` is the uncertainty budget: standard uncertainties,
        `absolute_n` in N and `relative` in proportion to the force; `verifications` are checks with
        masses, forces in N.
      - `rig.json`: the recordings, and what the rig said of itself.
      - `journal.json`: blades, filament lots, sessions with stages, sharpening steps and inspections
        as they stand; cuts set aside and counted again. Where something was corrected, `history` has
        all its versions and `entries` all entries of the session, oldest first.
      %s""",
        oneLine(attribution.title()),
        "This package has " + cuts + (cuts == 1 ? " cut." : " cuts."),
        licence(attribution.licences()),
        whose(attribution),
        tables);
  }

  private static String licence(List<Licence> licences) {
    return licences.isEmpty()
        ? "none for all of it; ask the sender before you pass these files on."
        : licences.stream()
            .map(l -> l.name() + l.text().map(url -> " (" + url + ")").orElse(""))
            .collect(Collectors.joining(", "));
  }

  /** Who made it, and what of it is the work of others; begins and ends between paragraphs. */
  private static String whose(Attribution attribution) {
    StringBuilder text = new StringBuilder();
    if (!attribution.contributors().isEmpty()) {
      text.append("By ").append(names(attribution.contributors())).append(".\n");
    }
    if (!attribution.sources().isEmpty()) {
      text.append("\nSome of it is the work of others, each under its own licence. ");
      text.append("Column `source` of `cuts.csv` says which:\n\n");
    }
    int number = 0;
    for (Credit source : attribution.sources()) {
      number++;
      text.append(number).append(". ").append(oneLine(source.title()));
      text.append(source.contributors().isEmpty() ? "" : ", by " + names(source.contributors()));
      text.append(": ").append(source.licence().orElse("no licence")).append('\n');
    }
    return text.toString();
  }

  private static String names(List<String> contributors) {
    return contributors.stream().map(Readme::oneLine).collect(Collectors.joining(", "));
  }

  private static String oneLine(String title) {
    return title.replaceAll("\\s+", " ");
  }

  private static void append(StringBuilder text, PackageTable<?> table) {
    text.append("\n### ").append(table.file()).append("\n\n").append(table.title()).append(".\n\n");
    text.append("| column | unit | meaning |\n|---|---|---|\n");
    for (Attribute<?> column : table.columns()) {
      text.append(
          String.format(
                  Locale.ROOT,
                  "| `%s` | %s | %s |%n",
                  column.name(),
                  column.unit(),
                  column.meaning())
              .replace("\r\n", "\n"));
    }
  }
}
