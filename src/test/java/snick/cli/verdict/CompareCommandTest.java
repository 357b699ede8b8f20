package snick.cli.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import snick.cli.Ran;
import snick.cli.terminal.ExitCode;

class CompareCommandTest {
  private static List<NamedCsvRecord> resource(String name) throws IOException {
    try (CsvReader<NamedCsvRecord> csv =
        CsvReader.builder()
            .ofNamedCsvRecord(
                new InputStreamReader(
                    CompareCommandTest.class.getResourceAsStream("/snick/verdict/" + name),
                    StandardCharsets.UTF_8))) {
      return csv.stream().toList();
    }
  }

  private static String values(String dataset, String group) throws IOException {
    return resource("two_group_data.csv").stream()
        .filter(r -> r.getField("dataset").equals(dataset) && r.getField("group").equals(group))
        .map(r -> r.getField("value"))
        .collect(Collectors.joining(","));
  }

  private static Map<String, Double> resultsOfR(String dataset) throws IOException {
    return resource("two_group_results_R.csv").stream()
        .filter(r -> r.getField("dataset").equals(dataset))
        .collect(
            Collectors.toMap(
                r -> r.getField("quantity"), r -> Double.parseDouble(r.getField("value"))));
  }

  /** R's file has 12 digits. */
  private static Offset<Double> digits(double value) {
    return within(1e-9 * Math.max(1e-3, Math.abs(value)));
  }

  private static void assertSame(Object ours, double theirs) {
    assertThat(Ran.number(ours)).isCloseTo(theirs, digits(theirs));
  }

  private static void assertEnds(Map<String, Object> json, String name, double low, double high) {
    double[] ends = Ran.numbers(json, name);
    assertThat(ends).hasSize(2);
    assertThat(ends[0]).isCloseTo(low, digits(low));
    assertThat(ends[1]).isCloseTo(high, digits(high));
  }

  /**
   * Computed with R 4.2.2 (two_group_results_R.csv, invented data); the file gives before − after,
   * the contract second − first.
   */
  @ParameterizedTest
  @CsvSource({"A,lower", "C,no_difference_shown"})
  void theContractForScriptsAgreesWithR(String dataset, String verdict) throws IOException {
    Map<String, Double> r = resultsOfR(dataset);
    Ran ran =
        Ran.command(
            "compare",
            "--values",
            values(dataset, "before"),
            "--values",
            values(dataset, "after"),
            "--json");
    assertThat(ran.err()).isEmpty();
    assertThat(ran.exit()).isZero();
    Map<String, Object> json = ran.json();
    assertGroup(Ran.object(json, "first"), r, "before");
    assertGroup(Ran.object(json, "second"), r, "after");
    assertSame(json.get("difference"), -r.get("diff_before_minus_after"));
    assertEnds(json, "ci95", -r.get("welch_ci95_hi"), -r.get("welch_ci95_lo"));
    assertSame(json.get("welch_t"), -r.get("welch_t"));
    assertSame(json.get("welch_df"), r.get("welch_df"));
    assertSame(json.get("welch_p"), r.get("welch_p_two_sided"));
    assertSame(json.get("mann_whitney_u"), r.get("MWU_U_after"));
    assertSame(json.get("mann_whitney_p"), r.get("MWU_exact_conditional_p_coin"));
    assertSame(json.get("hodges_lehmann"), -r.get("HL_shift_median_of_differences"));
    assertEnds(
        json,
        "hodges_lehmann_ci",
        -r.get("HL_ci95_hi_exactRankTests"),
        -r.get("HL_ci95_lo_exactRankTests"));
    assertSame(json.get("permutation_p"), r.get("perm_p_two_sided_abs"));
    assertSame(json.get("hedges_g"), -r.get("hedges_g_exactJ"));
    assertThat(json.get("verdict")).isEqualTo(verdict);
    assertThat((List<?>) json.get("reasons")).isNotEmpty();
  }

  private static void assertGroup(Map<String, Object> group, Map<String, Double> r, String name) {
    assertSame(group.get("n"), r.get("n_" + name));
    assertSame(group.get("mean"), r.get("mean_" + name));
    assertSame(group.get("sd"), r.get("sd_" + name));
  }

  @Test
  void theContractHasAllItsFields() throws IOException {
    assertThat(Ran.command("compare", "--values", "1,2", "--values", "3,5", "--json").json())
        .containsKeys(
            "first",
            "second",
            "difference",
            "ci95",
            "welch_t",
            "welch_df",
            "welch_p",
            "mann_whitney_u",
            "mann_whitney_p",
            "hodges_lehmann",
            "hodges_lehmann_ci",
            "permutation_p",
            "hedges_g",
            "verdict",
            "reasons");
  }

  @Test
  void identicalValuesHaveNoTestOfMeansButStillAVerdict() throws IOException {
    Ran ran = Ran.command("compare", "--values", "5,5,5", "--values", "5,5,5", "--json");
    assertThat(ran.exit()).isZero();
    assertThat(ran.json())
        .containsEntry("welch_p", null)
        .containsEntry("ci95", null)
        .containsEntry("hedges_g", null)
        .containsEntry("verdict", "no_difference_shown");
    assertThat(ran.out()).doesNotContain("NaN");
  }

  @Test
  void withAMarginTheVerdictCanBeEquivalent() throws IOException {
    Ran ran =
        Ran.command(
            "compare",
            "--values",
            "94,90,97,91",
            "--values",
            "92,95,93,96",
            "--margin",
            "8",
            "--json");
    assertThat(ran.json()).containsEntry("verdict", "equivalent");
  }

  @Test
  void peopleReadTheVerdictInWords() {
    Ran ran = Ran.command("compare", "--values", "94,90,97,91", "--values", "92,95,93,96");
    assertThat(ran.out()).contains("Verdict: no difference shown").doesNotContain("same");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "''|131,127|first has no cuts",
        "212|131,127|first has 1 cut, at least 2",
        "212,NaN|131,127|first: value 2 is NaN",
        "212,198|131,Infinity|second: value 2 is Infinity",
        "212,198,|131,127|first: value 3 is empty",
        "212,2I0|131,127|first: value 2 is '2I0', not a number",
      })
  void badValuesAreNamed(String first, String second, String complaint) {
    Ran ran = Ran.command("compare", "--values", first, "--values", second, "--json");
    assertThat(ran.exit()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err()).startsWith("snick: " + complaint).hasLineCount(1);
    assertThat(ran.out()).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"0", "-1", "NaN"})
  void aMarginMustBeAboveZero(String margin) {
    Ran ran = Ran.command("compare", "--values", "1,2", "--values", "3,4", "--margin", margin);
    assertThat(ran.exit()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err()).contains("margin").contains("gf");
  }

  @Test
  void oneGroupAloneIsAnErrorOfUse() {
    Ran ran = Ran.command("compare", "--values", "1,2");
    assertThat(ran.exit()).isEqualTo(ExitCode.USAGE);
    assertThat(ran.err()).contains("name two stages, or give --values twice; given: ");
  }
}
