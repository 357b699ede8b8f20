package snick.cli.calibration;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import snick.cli.terminal.Refusal;
import snick.force.MassClass;
import snick.force.ReferenceMass;
import snick.quantity.Mass;

/** A mass in one word: {@code 100g:M1}, {@code 100.0002g:U=0.5mg}, {@code 75g:u=0.6g}. */
final class MassWord {
  private static final String AMOUNT = "(\\d+(?:\\.\\d+)?)(mg|g|kg)";
  private static final Pattern CLASS = Pattern.compile(AMOUNT + ":([A-Za-z]\\d)");
  private static final Pattern STATED = Pattern.compile(AMOUNT + ":(U|u|tolerance)=" + AMOUNT);
  private static final Pattern SIZE = Pattern.compile(AMOUNT);
  private static final double USUAL_COVERAGE_FACTOR = 2;

  private MassWord() {}

  /**
   * The mass that {@code word} names.
   *
   * @throws Refusal if it names none
   */
  static ReferenceMass parse(String word) {
    try {
      Matcher byClass = CLASS.matcher(word);
      if (byClass.matches()) {
        return ReferenceMass.ofClass(MassClass.named(byClass.group(3)), mass(byClass, 1));
      }
      Matcher stated = STATED.matcher(word);
      if (stated.matches()) {
        return stated(stated);
      }
    } catch (IllegalArgumentException e) {
      throw Refusal.badInput("--mass " + word + ": " + e.getMessage());
    }
    throw Refusal.badInput(
        "--mass "
            + word
            + " is not a mass with its uncertainty; write 100g:M1, 100.0002g:U=0.5mg, 75g:u=0.6g or"
            + " 7.5g:tolerance=0.1g");
  }

  /** The size that {@code word} gives, such as {@code 100g}; empty if it is none. */
  static Optional<Mass> amount(String word) {
    Matcher size = SIZE.matcher(word);
    return size.matches() ? Optional.of(mass(size, 1)) : Optional.empty();
  }

  private static ReferenceMass stated(Matcher word) {
    Mass mass = mass(word, 1);
    Mass uncertainty = mass(word, 4);
    String name = word.group(1) + " " + word.group(2);
    return switch (word.group(3)) {
      case "U" -> ReferenceMass.certified(name, mass, uncertainty, USUAL_COVERAGE_FACTOR);
      case "u" -> ReferenceMass.stated(name, mass, uncertainty, ReferenceMass.CONVENTIONAL_DENSITY);
      default ->
          ReferenceMass.toleranced(name, mass, uncertainty, ReferenceMass.CONVENTIONAL_DENSITY);
    };
  }

  private static Mass mass(Matcher word, int group) {
    double amount = Double.parseDouble(word.group(group));
    return switch (word.group(group + 1)) {
      case "mg" -> Mass.ofGrams(amount / 1000);
      case "g" -> Mass.ofGrams(amount);
      default -> new Mass(amount);
    };
  }
}
