package snick.verdict.study;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.apache.commons.statistics.distribution.FDistribution;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/**
 * Crossed repeatability study: every operator cuts every part equally often. Two-way random-effects
 * analysis of variance with interaction; components from the mean squares, 0 where those give less.
 * The interaction is pooled with the repeatability if its p is above 0.25 (common practice, no
 * source).
 *
 * @param table mean squares
 * @param components by the rule
 * @param pooled whether the interaction was pooled
 */
public record CrossedStudy(Table table, Components components, boolean pooled) {
  /** p of the interaction above which it is pooled. */
  public static final double POOL_ABOVE = 0.25;

  /**
   * One cut of the study.
   *
   * @param part edge or reference that was cut
   * @param operator alias of the operator
   * @param gramForce force, gf, finite
   */
  public record Reading(String part, String operator, double gramForce) {
    public Reading {
      if (!Double.isFinite(gramForce)) {
        throw new NotAccepted(
            "refused.no_force", "part", part, "operator", operator, "value", gramForce);
      }
    }
  }

  /**
   * One line of the table of mean squares.
   *
   * @param squares sum of squares, gf²
   * @param df degrees of freedom
   */
  public record Line(double squares, int df) {
    /** Mean square, gf². */
    public double meanSquare() {
      return squares / df;
    }
  }

  /** The table of mean squares. */
  public record Table(Line part, Line operator, Line interaction, Line repeatability, int repeats) {
    /** p of the interaction against the repeatability. */
    public double interactionP() {
      return FDistribution.of(interaction.df(), repeatability.df())
          .survivalProbability(interaction.meanSquare() / repeatability.meanSquare());
    }

    public Line pooledError() {
      return new Line(
          interaction.squares() + repeatability.squares(), interaction.df() + repeatability.df());
    }

    public Components full() {
      double within = repeatability.meanSquare();
      double crossed = interaction.meanSquare();
      return components(within, crossed, Math.max(0, (crossed - within) / repeats));
    }

    public Components pooled() {
      double within = pooledError().meanSquare();
      return components(within, within, 0);
    }

    private Components components(double within, double error, double interactionVariance) {
      int parts = part.df() + 1;
      int operators = operator.df() + 1;
      return new Components(
          within,
          Math.max(0, (operator.meanSquare() - error) / (parts * repeats)),
          interactionVariance,
          Math.max(0, (part.meanSquare() - error) / (operators * repeats)));
    }
  }

  /**
   * Variance components, gf².
   *
   * @param repeatability same operator, same part
   * @param operator between operators
   * @param interaction operators who differ on some parts only
   * @param part between parts
   */
  public record Components(double repeatability, double operator, double interaction, double part) {
    /** Operator and interaction together, gf². */
    public double reproducibility() {
      return operator + interaction;
    }

    /** All that is not the part, gf². */
    public double measuring() {
      return repeatability + reproducibility();
    }

    /** All, gf². */
    public double total() {
      return measuring() + part;
    }

    /** Standard deviation of measuring over that of all, 0 to 1. */
    public double measuringShare() {
      return Math.sqrt(measuring() / total());
    }

    /** How many groups of parts can be told apart: 1.41 times part over measuring. */
    public double distinctGroups() {
      return 1.41 * Math.sqrt(part / measuring());
    }
  }

  /**
   * Study of {@code readings}.
   *
   * @throws NotAccepted if parts, operators or repeats are fewer than 2, or a cell has another
   *     number of cuts than the rest; the message names the cell
   */
  public static CrossedStudy of(List<Reading> readings) {
    Table table = table(Cells.of(readings));
    boolean pooled = table.interactionP() > POOL_ABOVE;
    return new CrossedStudy(table, pooled ? table.pooled() : table.full(), pooled);
  }

  private static Table table(Cells cells) {
    double grand = mean(cells.all());
    int repeats = cells.repeats();
    double part = 0;
    for (String p : cells.parts()) {
      part += cells.operators().size() * repeats * squared(mean(cells.ofPart(p)) - grand);
    }
    double operator = 0;
    for (String o : cells.operators()) {
      operator += cells.parts().size() * repeats * squared(mean(cells.ofOperator(o)) - grand);
    }
    double cellSquares = 0;
    double within = 0;
    for (List<Double> cell : cells.byCell().values()) {
      double mean = mean(cell);
      cellSquares += repeats * squared(mean - grand);
      within += cell.stream().mapToDouble(v -> squared(v - mean)).sum();
    }
    if (!(within > 0)) {
      throw new NotAccepted("refused.repeats_do_not_scatter");
    }
    int dfPart = cells.parts().size() - 1;
    int dfOperator = cells.operators().size() - 1;
    return new Table(
        new Line(part, dfPart),
        new Line(operator, dfOperator),
        new Line(Math.max(0, cellSquares - part - operator), dfPart * dfOperator),
        new Line(within, cells.byCell().size() * (repeats - 1)),
        repeats);
  }

  private static double mean(List<Double> values) {
    return values.stream().mapToDouble(v -> v).average().orElseThrow();
  }

  private static double squared(double value) {
    return value * value;
  }

  /** Readings by part and operator, all cells equally full. */
  private record Cells(
      Set<String> parts, Set<String> operators, Map<List<String>, List<Double>> byCell) {

    static Cells of(List<Reading> readings) {
      Cells cells = new Cells(new LinkedHashSet<>(), new LinkedHashSet<>(), new LinkedHashMap<>());
      for (Reading r : readings) {
        cells.parts.add(r.part());
        cells.operators.add(r.operator());
        cells
            .byCell
            .computeIfAbsent(List.of(r.part(), r.operator()), k -> new ArrayList<>())
            .add(r.gramForce());
      }
      cells.check();
      return cells;
    }

    private void check() {
      if (parts.size() < 2 || operators.size() < 2) {
        throw new NotAccepted(
            "refused.crossed_too_small", "parts", parts.size(), "operators", operators.size());
      }
      int most = byCell.values().stream().mapToInt(List::size).max().orElseThrow();
      for (String part : parts) {
        for (String operator : operators) {
          int n = byCell.getOrDefault(List.of(part, operator), List.of()).size();
          if (n != most || n < 2) {
            throw new NotAccepted(
                Phrase.count("refused.crossed_uneven", n)
                    .with("part", part)
                    .with("operator", operator)
                    .with("needed", Math.max(2, most)));
          }
        }
      }
    }

    int repeats() {
      return byCell.values().iterator().next().size();
    }

    List<Double> all() {
      return byCell.values().stream().flatMap(List::stream).toList();
    }

    List<Double> ofPart(String part) {
      return of(0, part);
    }

    List<Double> ofOperator(String operator) {
      return of(1, operator);
    }

    private List<Double> of(int position, String name) {
      return byCell.entrySet().stream()
          .filter(cell -> cell.getKey().get(position).equals(name))
          .flatMap(cell -> cell.getValue().stream())
          .toList();
    }
  }
}
