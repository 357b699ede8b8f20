package snick.cli;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Option;
import snick.force.ReferenceMass;

/** Reference masses: a set from a file, or one by one. */
final class MassChoice {
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

  /** The masses, the smallest first; empty if none were given. */
  List<ReferenceMass> given() {
    List<ReferenceMass> masses = new ArrayList<>();
    file.ifPresent(name -> masses.addAll(MassFile.read(name)));
    words.forEach(word -> masses.add(MassWord.parse(word)));
    masses.sort(Comparator.comparingDouble(m -> m.conventionalMass().kilograms()));
    return masses;
  }

  /** The only mass that was given. */
  ReferenceMass one() {
    List<ReferenceMass> masses = given();
    if (masses.size() != 1) {
      throw Refusal.usage(
          masses.size() + " masses given: one check mass is needed, as in --mass 100g:M1");
    }
    return masses.get(0);
  }
}
