package snick.force.fit;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import org.apache.commons.statistics.distribution.FDistribution;

/** How the degree of the calibration polynomial is decided. */
public sealed interface DegreeRule {
  /** Level at which the tests of {@link Automatic} decide. */
  double LEVEL = 0.05;

  /** The word for {@link Automatic}. */
  String AUTO = "auto";

  /** The person names the degree, 1 to 3. */
  record Fixed(int degree) implements DegreeRule {
    public Fixed {
      if (degree < 1 || degree > 3) {
        throw new IllegalArgumentException("degree " + degree + " is outside 1 to 3");
      }
    }
  }

  /**
   * The lowest degree that the points do not speak against. From degree 1: with replicates, a
   * degree whose lack of fit is not significant at 5 % stands. Otherwise the next degree is taken
   * if it betters the residuals significantly (partial F-test, 5 %), up to 3 and as far as the
   * loads carry it and the curve still rises over them.
   */
  record Automatic() implements DegreeRule {}

  /** {@code "auto"} or a degree. */
  static DegreeRule named(String text) {
    return switch (text.strip().toLowerCase(Locale.ROOT)) {
      case AUTO -> new Automatic();
      case "1" -> new Fixed(1);
      case "2" -> new Fixed(2);
      case "3" -> new Fixed(3);
      default ->
          throw new IllegalArgumentException("degree '" + text + "': auto, 1, 2 or 3 allowed");
    };
  }

  /**
   * A fit and why it has its degree.
   *
   * @param fit the fit
   * @param lackOfFit its lack-of-fit test, if there are replicates
   * @param reason for people
   */
  record Choice(PolynomialFit fit, Optional<LackOfFit> lackOfFit, String reason) {}

  /** Fits by this rule; see {@link PolynomialFit#weighted} for the arguments and errors. */
  default Choice fit(double[] x, double[] y, double[] weights, boolean throughOrigin) {
    if (this instanceof Fixed fixed) {
      PolynomialFit fit =
          PolynomialFit.weighted(
              x, y, weights, new PolynomialFit.Form(fixed.degree(), throughOrigin));
      return choice(fit, "degree " + fixed.degree() + " as asked");
    }
    return automatic(x, y, weights, throughOrigin);
  }

  private static Choice choice(PolynomialFit fit, String why) {
    Optional<LackOfFit> lack = LackOfFit.of(fit);
    return new Choice(fit, lack, why + "; " + lack.map(DegreeRule::say).orElse("no replicates"));
  }

  private static String say(LackOfFit lack) {
    return String.format(
        Locale.ROOT,
        "lack of fit F(%d, %d) = %.4g, p = %.3g: %s",
        lack.lackDegreesOfFreedom(),
        lack.pureDegreesOfFreedom(),
        lack.f(),
        lack.pValue(),
        lack.pValue() < LEVEL ? "significant" : "not significant");
  }

  private static Choice automatic(double[] x, double[] y, double[] weights, boolean origin) {
    PolynomialFit fit = PolynomialFit.weighted(x, y, weights, new PolynomialFit.Form(1, origin));
    StringBuilder why = new StringBuilder("degree 1 to begin with");
    while (fit.form().degree() < 3 && LackOfFit.of(fit).map(l -> l.pValue() < LEVEL).orElse(true)) {
      PolynomialFit.Form higher = new PolynomialFit.Form(fit.form().degree() + 1, origin);
      if (!carries(x, higher)) {
        return choice(fit, why + "; too few loads for degree " + higher.degree());
      }
      PolynomialFit next = PolynomialFit.weighted(x, y, weights, higher);
      double p = partial(fit, next);
      if (!(p < LEVEL)) {
        why.append(
            String.format(Locale.ROOT, "; degree %d no better, p = %.3g", higher.degree(), p));
        break;
      }
      if (!rises(next)) {
        why.append("; degree ").append(higher.degree()).append(" would not rise over all loads");
        break;
      }
      why.append(String.format(Locale.ROOT, "; degree %d better, p = %.3g", higher.degree(), p));
      fit = next;
    }
    return choice(fit, why.toString());
  }

  private static boolean carries(double[] x, PolynomialFit.Form form) {
    long distinct =
        Arrays.stream(x).filter(v -> !form.throughOrigin() || v != 0).distinct().count();
    return distinct > form.parameters() && x.length > form.parameters();
  }

  private static boolean rises(PolynomialFit fit) {
    double low = Arrays.stream(fit.loads()).min().orElse(0);
    double high = Arrays.stream(fit.loads()).max().orElse(0);
    double sign = Math.signum(fit.predict(high) - fit.predict(low));
    for (int i = 0; i <= 100; i++) {
      if (!(sign * fit.slope(low + (high - low) * i / 100) > 0)) {
        return false;
      }
    }
    return true;
  }

  /** Probability of an improvement at least as large if the added power is not needed. */
  private static double partial(PolynomialFit lower, PolynomialFit higher) {
    double gain = lower.residualSumOfSquares() - higher.residualSumOfSquares();
    double meanSquare = higher.residualSumOfSquares() / higher.degreesOfFreedom();
    if (!(gain > 0)) {
      return 1;
    }
    return meanSquare > 0
        ? FDistribution.of(1, higher.degreesOfFreedom()).survivalProbability(gain / meanSquare)
        : 0;
  }
}
