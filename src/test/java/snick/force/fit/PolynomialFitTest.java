package snick.force.fit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import snick.force.Table;
import snick.force.budget.BudgetTerm;
import snick.force.budget.Contribution;
import snick.force.budget.Coverage;
import snick.force.mass.AirDensity;
import snick.force.mass.Distribution;
import snick.force.mass.Gravity;
import snick.force.mass.LoadUnit;

class PolynomialFitTest {
  private static final PolynomialFit.Form LINE = new PolynomialFit.Form(1, false);
  private static final Percentage ONE_IN_TEN_TO_THE_TEN = Percentage.withPercentage(1e-8);

  private static PolynomialFit reference(String name, int degree, boolean origin) {
    List<NamedCsvRecord> rows = Table.read("strd_" + name + ".csv");
    return PolynomialFit.of(
        Table.column(rows, "x"), Table.column(rows, "y"), new PolynomialFit.Form(degree, origin));
  }

  static Stream<Arguments> sets() {
    return Stream.of(
        Arguments.of("norris", 1, false),
        Arguments.of("pontius", 2, false),
        Arguments.of("noint1", 1, true),
        Arguments.of("noint2", 1, true));
  }

  /** NIST Statistical Reference Datasets, linear regression: certified values. */
  @ParameterizedTest
  @MethodSource("sets")
  void reachesTheCertifiedValues(String name, int degree, boolean origin) {
    PolynomialFit fit = reference(name, degree, origin);
    int checked = 0;
    for (NamedCsvRecord row : Table.read("strd_regression_certified.csv")) {
      if (row.getField("dataset").equals(name)) {
        String quantity = row.getField("quantity");
        assertThat(quantity(fit, quantity))
            .as(name + " " + quantity)
            .isCloseTo(
                Table.number(row, "certified"),
                quantity.equals("F") || quantity.equals("sse")
                    ? Percentage.withPercentage(1e-7)
                    : ONE_IN_TEN_TO_THE_TEN);
        checked++;
      }
    }
    assertThat(checked).isGreaterThanOrEqualTo(7);
  }

  private static double quantity(PolynomialFit fit, String name) {
    double explained = fit.totalSumOfSquares() - fit.residualSumOfSquares();
    int powers = fit.form().parameters() - (fit.form().throughOrigin() ? 0 : 1);
    double meanSquare = fit.residualSumOfSquares() / fit.degreesOfFreedom();
    return switch (name) {
      case "s" -> fit.residualSd();
      case "r2" -> fit.rSquared();
      case "sse" -> fit.residualSumOfSquares();
      case "ssr" -> explained;
      case "F" -> explained / powers / meanSquare;
      default -> {
        int power = Character.digit(name.charAt(name.length() - 1), 10);
        yield name.startsWith("sb") ? fit.standardErrors()[power] : fit.coefficients()[power];
      }
    };
  }

  /** JCGM 100:2008, H.3: calibration of a thermometer, line over t − 20 °C. */
  @Test
  void followsTheThermometerOfTheGuide() {
    List<NamedCsvRecord> rows = Table.read("gum_h3_thermometer.csv");
    double[] t = rows.stream().mapToDouble(r -> Table.number(r, "t_k_degC") - 20).toArray();
    PolynomialFit fit = PolynomialFit.of(t, Table.column(rows, "b_k_degC"), LINE);
    double[][] covariance = fit.covariance();
    double correlation = covariance[0][1] / Math.sqrt(covariance[0][0] * covariance[1][1]);
    assertThat(fit.coefficients()[0]).isCloseTo(-0.1712, within(5e-5));
    assertThat(fit.coefficients()[1]).isCloseTo(0.00218, within(5e-6));
    assertThat(fit.standardErrors()[0]).isCloseTo(0.0029, within(5e-5));
    assertThat(fit.standardErrors()[1]).isCloseTo(0.00067, within(5e-6));
    assertThat(correlation).isCloseTo(-0.930, within(5e-4));
    assertThat(fit.residualSd()).isCloseTo(0.0035, within(5e-5));
    assertThat(fit.predict(10)).isCloseTo(-0.1494, within(5e-5));
    assertThat(fit.degreesOfFreedom()).isEqualTo(9);
  }

  /** R² says nothing about linearity: a line through Pontius has 0.99999 and fails. */
  @Test
  void aStraightLineThroughPontiusFailsLackOfFit() {
    PolynomialFit line = reference("pontius", 1, false);
    assertThat(line.rSquared()).isCloseTo(0.99999, within(5e-6));
    LackOfFit lack = LackOfFit.of(line).orElseThrow();
    assertThat(lack.lackDegreesOfFreedom()).isEqualTo(18);
    assertThat(lack.pureDegreesOfFreedom()).isEqualTo(20);
    assertThat(lack.pValue()).isLessThan(1e-10);
    LackOfFit quadratic = LackOfFit.of(reference("pontius", 2, false)).orElseThrow();
    assertThat(quadratic.pValue()).isGreaterThan(0.05);
  }

  @Test
  void choosesDegreeTwoForPontiusAndSaysWhy() {
    PolynomialFit line = reference("pontius", 1, false);
    double[] equal = new double[40];
    Arrays.fill(equal, 1);
    DegreeRule.Choice choice =
        new DegreeRule.Automatic().fit(line.loads(), line.readings(), equal, false);
    assertThat(choice.fit().form().degree()).isEqualTo(2);
    assertThat(choice.reason()).contains("degree 2 better").contains("not significant");
    DegreeRule.Choice asked =
        new DegreeRule.Fixed(1).fit(line.loads(), line.readings(), equal, false);
    assertThat(asked.reason()).contains("as asked").contains(": significant");
  }

  @Test
  void staysAtALineWithoutReplicatesIfNothingIsGained() {
    PolynomialFit norris = reference("norris", 1, false);
    double[] equal = new double[36];
    Arrays.fill(equal, 1);
    DegreeRule.Choice choice =
        new DegreeRule.Automatic().fit(norris.loads(), norris.readings(), equal, false);
    assertThat(choice.fit().form().degree()).isEqualTo(1);
  }

  @Test
  void weightsMovePointsInProportion() {
    double[] x = {1, 2, 3, 4};
    double[] y = {1, 2.1, 2.9, 4.2};
    PolynomialFit twice =
        PolynomialFit.of(new double[] {1, 2, 3, 4, 4}, new double[] {1, 2.1, 2.9, 4.2, 4.2}, LINE);
    PolynomialFit weighted = PolynomialFit.weighted(x, y, new double[] {3, 3, 3, 6}, LINE);
    assertThat(weighted.coefficients()[0]).isCloseTo(twice.coefficients()[0], within(1e-14));
    assertThat(weighted.coefficients()[1]).isCloseTo(twice.coefficients()[1], within(1e-14));
    assertThat(weighted.rSquared()).isCloseTo(twice.rSquared(), within(1e-14));
  }

  @Test
  void badPointsAreRefusedWithARemedy() {
    double[] three = {1, 2, 3};
    assertThatThrownBy(() -> PolynomialFit.of(new double[] {5, 5, 5}, three, LINE))
        .hasMessageContaining("1 distinct loads")
        .hasMessageContaining("add loads");
    assertThatThrownBy(() -> PolynomialFit.of(new double[] {1, 2}, new double[] {1, 2}, LINE))
        .hasMessageContaining("no degree of freedom");
    assertThatThrownBy(() -> PolynomialFit.of(new double[] {1, Double.NaN, 3}, three, LINE))
        .hasMessageContaining("point 2");
    assertThatThrownBy(() -> PolynomialFit.weighted(three, three, new double[] {1, -1, 1}, LINE))
        .hasMessageContaining("weight -1.0");
    assertThatThrownBy(() -> new PolynomialFit.Form(4, false)).hasMessageContaining("1 to 3");
    assertThatThrownBy(() -> DegreeRule.named("five")).hasMessageContaining("five");
  }

  @Test
  void aTableInGramsHasTheSameCurveOverForce() {
    List<PointsFit.Point> points =
        IntStream.rangeClosed(0, 5)
            .mapToObj(
                i ->
                    new PointsFit.Point(100 * i, 10 + 43_725 * i + (i % 2), OptionalDouble.empty()))
            .toList();
    PointsFit.Place place = new PointsFit.Place(Gravity.measured(9.81, 0), AirDensity.standard());
    PointsFit fit =
        PointsFit.fit(
            points,
            LoadUnit.GRAM,
            new DegreeRule.Fixed(1),
            PointsFit.Options.USUAL,
            Optional.of(place));
    double perGram = fit.choice().fit().coefficients()[1];
    assertThat(fit.overForce().orElseThrow().coefficients()[1])
        .isCloseTo(perGram / (1e-3 * 9.81 * (1 - 1.5e-4)), within(1e-6));
    PointsFit asGiven =
        PointsFit.fit(
            points,
            LoadUnit.GRAM,
            new DegreeRule.Fixed(1),
            PointsFit.Options.USUAL,
            Optional.empty());
    assertThat(asGiven.overForce()).isEmpty();
    assertThat(asGiven.choice().fit().coefficients()[1]).isEqualTo(perGram);
  }

  /**
   * Closed form: loads 0 to 5, the last uncertain by 0.4. Carried through the line, its error moves
   * the reading at x by 0.4·b·(1/6 + 2.5·(x − 2.5)/17.5), at load 5 by 0.2095·b.
   */
  @Test
  void errorsOfLoadsAreCarriedThroughTheFitAndNotWeighed() {
    List<PointsFit.Point> points =
        IntStream.rangeClosed(0, 5)
            .mapToObj(i -> new PointsFit.Point(i, 100 * i, OptionalDouble.of(i == 5 ? 0.4 : 0)))
            .toList();
    PointsFit fit =
        PointsFit.fit(
            points,
            LoadUnit.NEWTON,
            new DegreeRule.Fixed(1),
            PointsFit.Options.USUAL,
            Optional.empty());
    double atFive = 0.4 * (1.0 / 6 + 2.5 * 2.5 / 17.5);
    assertThat(fit.byLoads().orElseThrow()).isCloseTo(atFive / 5, within(1e-12));
    assertThatThrownBy(() -> new PointsFit.Point(1, 1, OptionalDouble.of(-0.1)))
        .hasMessageContaining(String.format(Locale.ROOT, "%s", -0.1));
  }

  /** JCGM 100:2008 table G.2, computed with SciPy 1.17.1; ν = 1 at 99.73 % to 1e-4. */
  @Test
  void coverageFactorsAreThoseOfTheTable() {
    double[] probabilities = {0.6827, 0.90, 0.95, 0.9545, 0.99, 0.9973};
    String[] columns = {"p=68.27%", "p=90.00%", "p=95.00%", "p=95.45%", "p=99.00%", "p=99.73%"};
    List<NamedCsvRecord> rows = Table.read("gum_table_G2_t_factors.csv");
    assertThat(rows).hasSizeGreaterThan(25);
    for (NamedCsvRecord row : rows) {
      String text = row.getField("dof").strip();
      double dof =
          text.startsWith("inf") || text.equals("∞")
              ? Double.POSITIVE_INFINITY
              : Double.parseDouble(text);
      for (int i = 0; i < columns.length; i++) {
        assertThat(Coverage.factor(probabilities[i], dof))
            .as(text + " " + columns[i])
            .isCloseTo(Table.number(row, columns[i]), Percentage.withPercentage(1e-4));
      }
    }
    assertThatThrownBy(() -> Coverage.factor(1, 3)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Coverage.factor(0.9, 0)).isInstanceOf(IllegalArgumentException.class);
  }

  private static Contribution part(double u, double dof) {
    return new Contribution(BudgetTerm.Source.STATED, Distribution.NORMAL, u, dof);
  }

  /** JCGM 100:2008, H.1 end gauge: u_c 32 nm, ν_eff 16, U99 93 nm (last two from memory). */
  @Test
  void welchSatterthwaiteOfTheEndGauge() {
    List<Contribution> comparison = List.of(part(5.8, 24), part(3.9, 5), part(6.7, 8));
    double d = Contribution.combined(comparison);
    double dofOfD = Contribution.effectiveDegreesOfFreedom(comparison);
    assertThat(d).isCloseTo(9.68194195397, within(1e-10));
    assertThat(dofOfD).isCloseTo(25.4472507774, within(1e-9));
    List<Contribution> all =
        List.of(part(25, 18), part(d, dofOfD), part(2.88678731487, 50), part(16.5990270605, 2));
    assertThat(Contribution.combined(all)).isCloseTo(31.663879111, within(1e-8));
    double dof = Contribution.effectiveDegreesOfFreedom(all);
    assertThat(dof).isCloseTo(16.7518557376, within(1e-8));
    assertThat(Coverage.factor(0.99, Math.floor(dof))).isCloseTo(2.92, within(0.005));
  }

  /** JCGM 100:2008, G.4.1 example (from memory, confirmed by computing). */
  @Test
  void welchSatterthwaiteOfTheSecondExample() {
    List<Contribution> all = List.of(part(0.25, 9), part(0.57, 4), part(0.82, 14));
    assertThat(Contribution.combined(all)).isCloseTo(1.03, within(0.005));
    double dof = Contribution.effectiveDegreesOfFreedom(all);
    assertThat(dof).isCloseTo(19.0, within(0.05));
    assertThat(Coverage.factor(0.95, dof)).isCloseTo(2.09, within(0.005));
  }
}
