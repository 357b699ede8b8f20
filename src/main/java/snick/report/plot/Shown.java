package snick.report.plot;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import snick.journal.Session;
import snick.phrase.Phrase;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.verdict.statistic.Interval;

/** Figures as they stand in pictures and reports; always a decimal point. */
public final class Shown {
  private static final double COVERAGE_FACTOR = 2;
  private static final int LONGEST_IN_PICTURE = 24;

  private Shown() {}

  /** So many decimals; what rounds to zero has no sign. */
  public static String fixed(double value, int decimals) {
    String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
    if (!text.startsWith("-")) {
      return text;
    }
    String size = text.substring(1);
    return isZero(size) ? size : "−" + size;
  }

  private static boolean isZero(String number) {
    return number.chars().allMatch(c -> c == '0' || c == '.');
  }

  /** Force and expanded uncertainty, k = 2, the uncertainty with two significant digits. */
  public static String newtons(MeasuredForce force) {
    return plusMinus(
            force.value().newtons(), COVERAGE_FACTOR * force.standardUncertainty().newtons())
        + " N";
  }

  /** As {@link #newtons(MeasuredForce)}, in gf. */
  static String gramForce(MeasuredForce force) {
    return plusMinus(
            force.value().gramForce(), COVERAGE_FACTOR * force.standardUncertainty().gramForce())
        + " gf";
  }

  public static double expandedNewtons(MeasuredForce force) {
    return COVERAGE_FACTOR * force.standardUncertainty().newtons();
  }

  /**
   * Value and expanded uncertainty in the same unit, the uncertainty with two significant digits.
   */
  public static String plusMinus(double value, double expanded) {
    int decimals =
        expanded > 0 ? (int) Math.max(0, Math.min(5, 1 - Math.floor(Math.log10(expanded)))) : 1;
    return fixed(value, decimals) + " ± " + fixed(expanded, decimals);
  }

  /** A force given in gf, as gf. */
  public static String gf(double gramForce) {
    return fixed(gramForce, Math.abs(gramForce) >= 10 ? 1 : 2) + " gf";
  }

  /** A force given in gf, as N. */
  public static String newtons(double gramForce) {
    return fixed(gramForce * Force.NEWTONS_PER_GRAM_FORCE, 3) + " N";
  }

  static String signedPercent(double share) {
    return signed(share, fixed(100 * share, 0)) + " %";
  }

  private static String signed(double value, String shown) {
    return value > 0 && !isZero(shown.replaceFirst(" .*", "")) ? "+" + shown : shown;
  }

  /** Both ends in gf, the unit once. */
  static Phrase range(Interval gf) {
    int decimals = Math.abs(gf.high()) >= 10 ? 1 : 2;
    return Phrase.of("reason.range")
        .with("low", fixed(gf.low(), decimals))
        .with("high", fixed(gf.high(), decimals) + " gf");
  }

  /** Where the figures of a picture are from. */
  static Phrase origin(Session session, int cuts) {
    return Phrase.of(session.equipment().rig().isPresent() ? "draw.origin" : "draw.origin_no_rig")
        .with("blade", shortened(session.blade()))
        .with("session", shortened(session.name()))
        .with("day", Day.utc(session.opened()))
        .with("rig", session.equipment().rig().map(Shown::shortened).orElse(""))
        .with("n", cuts);
  }

  /** A name short enough for a picture. */
  static String shortened(String name) {
    return shortened(name, LONGEST_IN_PICTURE);
  }

  /**
   * {@code text} broken between words into at most {@code most} lines of at most {@code letters};
   * what does not fit ends in an ellipsis.
   */
  static List<String> lines(String text, int letters, int most) {
    List<String> lines = new ArrayList<>();
    String rest = text.strip();
    while (lines.size() < most - 1 && rest.length() > letters) {
      int space = rest.lastIndexOf(' ', letters);
      if (space < 0) {
        break;
      }
      lines.add(rest.substring(0, space));
      rest = rest.substring(space + 1);
    }
    lines.add(shortened(rest, letters));
    return lines;
  }

  static String shortened(String name, int letters) {
    return name.codePointCount(0, name.length()) <= letters
        ? name
        : name.substring(0, name.offsetByCodePoints(0, letters - 1)) + "…";
  }
}
