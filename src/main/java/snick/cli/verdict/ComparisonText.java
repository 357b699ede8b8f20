package snick.cli.verdict;

import java.io.PrintWriter;
import java.util.Locale;
import snick.cli.terminal.Figures;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.Said;
import snick.cli.terminal.Table;
import snick.verdict.comparison.Comparison;
import snick.verdict.comparison.GroupFigures;
import snick.verdict.comparison.Paired;
import snick.verdict.comparison.Reason;
import snick.verdict.statistic.Ratio;
import snick.verdict.statistic.Welch;

/** A comparison for people: figures first, then the verdict and why. */
public record ComparisonText(Comparison c) {
  /** Prints figures, verdict, reasons and what would settle it; forces in gf. */
  public void print(PrintWriter out) {
    Table table = new Table("GROUP", ">CUTS", ">MEAN gf", ">SD gf", ">95 % OF THE MEAN");
    row(table, c.first());
    row(table, c.second());
    table.print(out);
    out.println();
    out.println("difference     " + difference());
    c.tests().ratio().ifPresent(r -> out.println("ratio          " + ratio(r)));
    c.tests().paired().ifPresent(p -> out.println("same places    " + paired(p)));
    c.tests().welch().ifPresent(w -> out.println("Welch          " + welch(w)));
    out.println("Mann-Whitney   " + ranks());
    out.println("shift          " + shift());
    out.println("permutation    " + permutation());
    c.effect().ifPresent(e -> out.println("Hedges' g      " + Numbers.fixed(e.hedgesG(), 2)));
    out.println();
    out.println("Verdict: " + c.verdict().plain());
    c.reasons().forEach(reason -> print(out, reason));
    c.moreCuts().told().ifPresent(m -> out.println("To settle it: " + Said.of(m) + "."));
  }

  private static void row(Table table, GroupFigures figures) {
    table.row(
        figures.name(),
        figures.n(),
        Figures.number(figures.meanGf()),
        Figures.number(figures.sdGf()),
        Figures.range(figures.ci95Gf()));
  }

  private String difference() {
    return Figures.signedGf(c.second().meanGf() - c.first().meanGf())
        + ", second minus first"
        + c.tests()
            .welch()
            .map(w -> "; 95 % interval " + Figures.range(w.ci95Gf()) + " gf")
            .orElse("; neither group scatters, so there is no interval");
  }

  private static String ratio(Ratio ratio) {
    return String.format(
        Locale.ROOT,
        "%.3f, second over first; 95 %% interval %.3f to %.3f",
        ratio.value(),
        ratio.ci95().low(),
        ratio.ci95().high());
  }

  private static String paired(Paired pairs) {
    return String.format(
        Locale.ROOT,
        "%d in both, %s, 95 %% interval %s gf, t = %.2f, %s; signed ranks %s",
        pairs.pairs(),
        Figures.signedGf(pairs.differenceGf()),
        Figures.range(pairs.ci95Gf()),
        pairs.t(),
        Figures.p(pairs.p()),
        Figures.p(pairs.signedRankP()));
  }

  private static String welch(Welch welch) {
    return String.format(
        Locale.ROOT,
        "t = %.2f, %.1f degrees of freedom, %s",
        welch.t(),
        welch.degreesOfFreedom(),
        Figures.p(welch.p()));
  }

  private String ranks() {
    return "U = %s, %s (%s)"
        .formatted(
            Numbers.fixed(c.tests().rankSum().u(), 1),
            Figures.p(c.tests().rankSum().p()),
            c.tests().rankSum().method().plain());
  }

  private String shift() {
    return "%s (Hodges-Lehmann); %s %% interval %s gf"
        .formatted(
            Figures.signedGf(c.tests().rankSum().hodgesLehmannGf()),
            Numbers.fixed(100 * c.tests().rankSum().ciGf().confidence(), 1),
            Figures.range(c.tests().rankSum().ciGf()));
  }

  private String permutation() {
    return Figures.p(c.tests().permutation().p())
        + (c.tests().permutation().exact() ? ", all " : ", ")
        + c.tests().permutation().relabellings()
        + (c.tests().permutation().exact() ? " relabellings" : " random relabellings");
  }

  /** One reason, indented. */
  static void print(PrintWriter out, Reason reason) {
    out.println("  " + Said.of(reason.evidence()) + ".");
    out.println("    Rule: " + Said.of(reason.rule()) + " (" + Said.of(reason.source()) + ").");
    out.println("    What would change it: " + Said.of(reason.wouldChange()) + ".");
  }
}
