package snick.cli.cuts;

import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import snick.cli.terminal.Numbers;
import snick.cut.Cut;
import snick.cut.Peak;
import snick.cut.Rederivation;
import snick.cut.estimate.Budget;

/** What makes the uncertainty of one estimate at the break, and what would lessen most of it. */
final class EstimateParts {
  /** One that makes more of the variance than all others together is worth a hint. */
  private static final double MOST_OF_IT = 0.5;

  private static final String STEADIER = "a steadier, even hand helps";
  private static final String SLOWER = "slower loading, a stiffer fixture or a faster rate helps";

  private final List<Part> parts;

  /** A cause by name, its standard uncertainty, counts, and what lessens it. */
  private record Part(String word, double counts, String helps) {
    double variance() {
      return counts * counts;
    }
  }

  private EstimateParts(Budget budget) {
    parts =
        List.of(
            new Part("course", budget.courseCounts(), STEADIER),
            new Part("backtest", budget.backtestCounts(), STEADIER),
            new Part("instant", budget.instantCounts(), SLOWER),
            new Part("parting and lag", budget.partingCounts(), SLOWER),
            new Part("zero", budget.zeroCounts(), "a longer rest before and after helps"));
  }

  /** Those of a stored cut, derived again; empty if another version of the detector made it. */
  static Optional<EstimateParts> of(Cut cut) {
    return new Rederivation()
        .of(cut)
        .filter(again -> again.figures().values().equals(cut.figures().values()))
        .flatMap(Cut::peak)
        .flatMap(Peak::budget)
        .map(EstimateParts::new);
  }

  /** In words, counts. */
  String words() {
    return parts.stream()
            .map(part -> part.word() + " " + Numbers.fixed(part.counts(), 0))
            .collect(Collectors.joining(", "))
        + " counts (k = 1)";
  }

  /** What would lessen a part that makes most of it. */
  Optional<String> hint() {
    double all = parts.stream().mapToDouble(Part::variance).sum();
    return parts.stream()
        .max(Comparator.comparingDouble(Part::variance))
        .filter(part -> part.variance() > MOST_OF_IT * all)
        .map(part -> part.word() + ": " + part.helps());
  }

  Map<String, Object> json() {
    Map<String, Object> object = new LinkedHashMap<>();
    parts.forEach(
        part -> object.put("u_" + part.word().replace(' ', '_') + "_counts", part.counts()));
    return object;
  }
}
