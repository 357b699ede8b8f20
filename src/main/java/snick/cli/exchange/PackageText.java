package snick.cli.exchange;

import java.io.PrintWriter;
import java.util.List;
import snick.cli.terminal.PlainText;
import snick.exchange.check.PackageReport;

/** What a check of a package found, for people. */
final class PackageText {
  private static final int SHOWN = 20;

  private PackageText() {}

  static void print(PrintWriter out, PackageReport report) {
    out.println("\"" + PlainText.inert(report.title()) + "\"");
    out.println(terms(report));
    out.println(
        report.cuts()
            + (report.cuts() == 1 ? " cut, " : " cuts, ")
            + report.samples()
            + " samples; digests, tables and readings are as stated.");
    printAgain(out, report.again(), report.withoutTrace());
    if (report.holds()) {
      out.println(borneOut(report));
    } else {
      out.println("The raw traces do not bear out what is stated:");
      printFirst(out, report.differences());
    }
  }

  private static String borneOut(PackageReport report) {
    if (report.again() == 0) {
      return "There is no raw trace to bear out what is stated.";
    }
    return report.withoutTrace() == 0
        ? "The raw traces bear out all that is stated."
        : "The raw traces bear out all that is stated of the cuts that have a trace.";
  }

  static void printAgain(PrintWriter out, long again, long withoutTrace) {
    out.println(again + " cuts derived again from their traces.");
    if (withoutTrace > 0) {
      out.println(withoutTrace + " have no trace: typed in, or salvaged without.");
    }
  }

  /** Whose it is, and whether it may be passed on. */
  private static String terms(PackageReport report) {
    String by =
        report.contributors().isEmpty()
            ? ""
            : "By " + String.join(", ", report.contributors()) + ". ";
    return PlainText.inert(by)
        + report
            .licence()
            .map(name -> "Licence: " + PlainText.inert(name) + ".")
            .orElse("No licence: nobody may pass it on without the sender's leave.");
  }

  /** Prints some differences; whoever has many has seen enough then. */
  static void printFirst(PrintWriter out, List<String> differences) {
    differences.stream().limit(SHOWN).forEach(d -> out.println("  " + PlainText.inert(d)));
    if (differences.size() > SHOWN) {
      out.println("  and more; these are the first " + SHOWN + ".");
    }
  }
}
