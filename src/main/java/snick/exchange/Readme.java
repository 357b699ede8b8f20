package snick.exchange;

import java.util.Locale;

/** {@code README.md} of a package, for a reader who has nothing but the files. */
final class Readme {
  private Readme() {}

  static String of(ExportChoice choice, int cuts) {
    StringBuilder tables = new StringBuilder();
    for (Table table : Table.ALL) {
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
        oneLine(choice.title()),
        "This package has " + cuts + (cuts == 1 ? " cut." : " cuts."),
        choice
            .licence()
            .map(l -> l.name() + l.text().map(url -> " (" + url + ")").orElse(""))
            .orElse("none was chosen; ask the sender before you pass these files on."),
        tables);
  }

  private static String oneLine(String title) {
    return title.replaceAll("\\s+", " ");
  }

  private static void append(StringBuilder text, Table table) {
    text.append("\n### ").append(table.file()).append("\n\n").append(table.title()).append(".\n\n");
    text.append("| column | unit | meaning |\n|---|---|---|\n");
    for (Column column : table.columns()) {
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
