package snick.journal;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The words for a place along the edge. */
final class PlaceWords {
  private static final Pattern MILLIMETRES = Pattern.compile("(\\d{1,4}(?:[.,]\\d{1,3})?) ?mm");

  private PlaceWords() {}

  static Optional<Place> parse(String word) {
    String lower = word.strip().toLowerCase(Locale.ROOT);
    return switch (lower) {
      case "heel", "h" -> Optional.of(Place.Region.HEEL);
      case "middle", "mid", "m" -> Optional.of(Place.Region.MIDDLE);
      case "tip", "t" -> Optional.of(Place.Region.TIP);
      default -> parseMillimetres(lower);
    };
  }

  private static Optional<Place> parseMillimetres(String lower) {
    Matcher matcher = MILLIMETRES.matcher(lower);
    return matcher.matches()
        ? Optional.of(Place.fromHeel(Double.parseDouble(matcher.group(1).replace(',', '.'))))
        : Optional.empty();
  }

  /** {@code value} to three decimals, without trailing zeros. */
  static String plainNumber(double value) {
    return String.format(Locale.ROOT, "%.3f", value).replaceAll("\\.?0+$", "");
  }
}
