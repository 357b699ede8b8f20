package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * The traces that judge the detector are themselves held against figures computed elsewhere (numpy,
 * see SOURCES.md beside the data).
 */
class RigModelTest {
  @ParameterizedTest
  @EnumSource(
      value = RigModel.Filter.class,
      names = {"SINC1", "SINC3", "SINC4"})
  void stepResponse(RigModel.Filter filter) throws IOException {
    String[] row =
        rows("sinc_step_response.csv").stream()
            .filter(r -> r[0].equals("" + filter.stages) && r[1].equals("inf"))
            .findFirst()
            .orElseThrow();
    RigModel rig = new RigModel(1, filter, 0, 1);
    double[] y = rig.noiseless(t -> t < 3 ? 0 : 1, 12, 0);
    for (int k = 0; k < filter.stages; k++) {
      assertThat(y[4 + k]).isCloseTo(Double.parseDouble(row[2 + k]), within(0.03));
    }
  }

  @ParameterizedTest
  @EnumSource(
      value = RigModel.Filter.class,
      names = {"SINC1", "SINC3", "SINC4"})
  void largestReadingOfARampThatDrops(RigModel.Filter filter) throws IOException {
    for (String[] row : rows("sinc_peak_bias_ramp_drop.csv")) {
      double length = Double.parseDouble(row[1]);
      if (row[0].equals("" + filter.stages) && length <= 160) {
        assertThat(meanLargest(filter, length))
            .as("order %s, ramp of %s periods", row[0], row[1])
            .isCloseTo(Double.parseDouble(row[4]), within(0.01));
      }
    }
  }

  private static double meanLargest(RigModel.Filter filter, double length) {
    RigModel rig = new RigModel(1, filter, 0, 1);
    int phases = 16;
    double sum = 0;
    for (int p = 0; p < phases; p++) {
      double[] y =
          rig.noiseless(
              t -> t < 2 || t >= 2 + length ? 0 : (t - 2) / length,
              length + 10,
              (p + 0.5) / phases);
      sum += Arrays.stream(y).max().orElseThrow();
    }
    return sum / phases;
  }

  static List<String[]> rows(String name) throws IOException {
    try (InputStream in = RigModelTest.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .skip(1)
          .map(line -> line.split(",", -1))
          .toList();
    }
  }
}
