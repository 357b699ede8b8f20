package snick.force.mass;

import java.util.Arrays;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.phrase.Told;
import snick.quantity.Mass;

/**
 * Masses in words: {@code 100g:M1}, {@code 100.0002g:U=0.5mg}, {@code 75g:u=0.6g}; hung at once:
 * {@code 100g:M1+50g:M1}.
 */
public final class MassWord {
  private static final String AMOUNT = "(\\d+(?:\\.\\d+)?)(mg|g|kg)";
  private static final Pattern CLASS = Pattern.compile(AMOUNT + ":([A-Za-z]\\d)");
  private static final Pattern STATED = Pattern.compile(AMOUNT + ":(U|u|tolerance)=" + AMOUNT);
  private static final Pattern SIZE = Pattern.compile(AMOUNT);
  private static final double USUAL_COVERAGE_FACTOR = 2;

  private MassWord() {}

  /**
   * The mass that {@code word} names.
   *
   * @throws NotAccepted if it names none
   */
  public static ReferenceMass parse(String word) {
    try {
      return named(word);
    } catch (IllegalArgumentException e) {
      throw new NotAccepted(
          Phrase.of("refused.mass_word")
              .with("word", word)
              .with("why", e instanceof Told told ? told.why() : Phrase.of("refused.no_mass")));
    }
  }

  private static ReferenceMass named(String word) {
    Matcher byClass = CLASS.matcher(word);
    if (byClass.matches()) {
      return ReferenceMass.ofClass(MassClass.named(byClass.group(3)), mass(byClass, 1));
    }
    Matcher stated = STATED.matcher(word);
    if (stated.matches()) {
      return stated(stated);
    }
    throw new NotAccepted("refused.no_mass");
  }

  /**
   * The masses, joined by +, that {@code word} names.
   *
   * @throws NotAccepted if it names none
   */
  public static Load load(String word) {
    return new Load(Arrays.stream(word.split("\\+", -1)).map(part -> parse(part.strip())).toList());
  }

  /** The size that {@code word} gives, such as {@code 100g}; empty if it is none. */
  public static Optional<Mass> amount(String word) {
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
