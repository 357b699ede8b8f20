package snick.cli.calibration;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import picocli.CommandLine.Option;
import snick.cli.terminal.Refusal;
import snick.force.mass.Load;
import snick.force.mass.MassWord;
import snick.force.mass.ReferenceMass;

/** Reference masses: a set from a file, or one by one. */
public final class MassChoice {
  @Option(
      names = "--masses",
      paramLabel = "FILE",
      description =
          "Mass set, CSV: name,mass_g and one of class, U_mg with k, u_mg, tolerance_mg"
              + " (rig-calibration/mass-set-m1.csv).")
  private Optional<String> file;

  @Option(
      names = "--mass",
      paramLabel = "MASS",
      description =
          "One mass, may be repeated: 100g:M1 (class), 100.0002g:U=0.5mg (certificate, k = 2),"
              + " 75g:u=0.6g (standard uncertainty), 7.5g:tolerance=0.1g.")
  private List<String> words = new ArrayList<>();

  @Option(
      names = "--load",
      paramLabel = "LOAD",
      description =
          "Masses hung at once, joined by +, may be repeated: 100g:M1+50g:M1, or masses of the set"
              + " by size or name: 100g+50g. Only these are hung then. Their uncertainties add"
              + " linearly, as masses of one set may all err the same way.")
  private List<String> loadWords = new ArrayList<>();

  /** The loads, the smallest first, one mass each unless told otherwise; empty if none. */
  List<Load> loads() {
    List<ReferenceMass> masses = given();
    Stream<Load> loads =
        loadWords.isEmpty()
            ? masses.stream().map(Load::of)
            : loadWords.stream().map(word -> LoadWord.parse(word, masses));
    return loads.sorted(Comparator.comparingDouble(Load::nominalGrams)).toList();
  }

  private List<ReferenceMass> given() {
    List<ReferenceMass> masses = new ArrayList<>();
    file.ifPresent(name -> masses.addAll(MassFile.read(name)));
    words.forEach(word -> masses.add(mass(word)));
    masses.sort(Comparator.comparingDouble(m -> m.conventionalMass().kilograms()));
    return masses;
  }

  /**
   * The mass that {@code word} names.
   *
   * @throws Refusal if it names none
   */
  static ReferenceMass mass(String word) {
    return Refusal.ifNotAccepted(
        () -> MassWord.parse(word), why -> Refusal.badInput("--mass " + why));
  }

  /** The only load that was given. */
  public Load one() {
    List<Load> loads = loads();
    if (loads.size() != 1) {
      throw Refusal.usage(
          (loads.isEmpty() ? "no" : loads.size())
              + " check masses given; one is needed, as in --mass 100g:M1, or one --load of"
              + " several");
    }
    return loads.get(0);
  }
}
