package snick.cli.calibration;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import snick.cli.terminal.Refusal;
import snick.force.mass.Load;
import snick.force.mass.MassWord;
import snick.force.mass.ReferenceMass;

/**
 * Masses hung at once, in one word: {@code 100g:M1+50g:M1}, or picked from a set by size or name:
 * {@code 100g+50g}.
 */
final class LoadWord {
  private static final double SAME_MASS = 0.01;

  private final String word;
  private final List<ReferenceMass> set;
  private final List<ReferenceMass> left;

  private LoadWord(String word, List<ReferenceMass> set) {
    this.word = word;
    this.set = set;
    this.left = new ArrayList<>(set);
  }

  /**
   * The load that {@code word} names. A mass of the set hangs once: {@code 200g+200g} takes two.
   *
   * @throws Refusal if it names none
   */
  static Load parse(String word, List<ReferenceMass> set) {
    LoadWord reading = new LoadWord(word, set);
    List<ReferenceMass> masses = new ArrayList<>();
    for (String part : word.split("\\+", -1)) {
      masses.add(part.contains(":") ? MassChoice.mass(part.strip()) : reading.picked(part.strip()));
    }
    return new Load(masses);
  }

  private ReferenceMass picked(String part) {
    ReferenceMass mass =
        first(m -> m.name().equalsIgnoreCase(part))
            .or(() -> MassWord.amount(part).flatMap(amount -> first(m -> same(m, amount.grams()))))
            .orElseThrow(() -> unknown(part));
    left.remove(mass);
    return mass;
  }

  private Optional<ReferenceMass> first(Predicate<ReferenceMass> wanted) {
    return left.stream().filter(wanted).findFirst();
  }

  private static boolean same(ReferenceMass mass, double grams) {
    return Math.abs(mass.conventionalMass().grams() / grams - 1) < SAME_MASS;
  }

  private Refusal unknown(String part) {
    String there = set.stream().map(ReferenceMass::name).collect(Collectors.joining(", "));
    return Refusal.badInput(
        "--load %s: no mass '%s' is left among %s; give it with --masses or --mass, or"
            + " write it out as in 100g:M1+50g:M1",
        word, part, there.isEmpty() ? "none given" : there);
  }
}
