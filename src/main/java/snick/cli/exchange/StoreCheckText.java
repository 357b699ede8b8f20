package snick.cli.exchange;

import java.io.PrintWriter;
import snick.cli.option.DataDirectory;
import snick.cli.terminal.PlainText;
import snick.exchange.check.StoreCheck;
import snick.store.care.IntegrityReport;

/** What a check of the store found, for people. */
final class StoreCheckText {
  private StoreCheckText() {}

  static void print(PrintWriter out, StoreCheck.Report report, DataDirectory data) {
    IntegrityReport integrity = report.integrity();
    out.println(integrity.traces() + " traces checked, " + integrity.damagedTraces() + " damaged.");
    integrity.problems().forEach(p -> out.println("  " + PlainText.inert(p)));
    PackageText.printAgain(out, report.again(), report.withoutTrace());
    if (report.differing() > 0) {
      out.println("What is stored of " + report.differing() + " is not what their traces give:");
      PackageText.printFirst(out, report.differences());
      out.println(data.in("See what deriving again would change: snick rederive --detect --diff"));
    }
    out.println(conclusion(report));
  }

  private static String conclusion(StoreCheck.Report report) {
    if (!report.integrity().isSound()) {
      return "The store is NOT sound.";
    }
    return report.differing() == 0
        ? "The store is sound."
        : "Its structure and traces are sound; results differ.";
  }
}
