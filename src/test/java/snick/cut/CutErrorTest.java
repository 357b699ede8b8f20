package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Error of the estimate on modelled cuts of known force, and the honesty of its uncertainty. */
class CutErrorTest {
  private static final double[] LOADINGS = {20, 60, 150, 400};
  private static final double[] FORCES = {40, 100, 220};
  private static final RigModel.Filter[] FILTERS = {RigModel.Filter.BOX4, RigModel.Filter.SINC4};

  @ParameterizedTest
  @MethodSource("steadyCells")
  void withoutTremor(double rate, RigModel.Filter filter, double loading, double force) {
    ErrorCell c = ErrorCell.measure(rate, filter, loading, force, ErrorCell.Tremor.NONE, 12, 4711);
    assertThat(c.found()).isEqualTo(c.cuts());
    assertThat(c.meanPercent()).isBetween(-0.3, 0.3);
    assertThat(c.rmsPercent()).isLessThanOrEqualTo(0.6);
  }

  static Stream<Arguments> steadyCells() {
    List<Arguments> cells = new ArrayList<>();
    for (double rate : new double[] {80, 320}) {
      for (RigModel.Filter filter : FILTERS) {
        for (double loading : LOADINGS) {
          for (double force : FORCES) {
            cells.add(Arguments.of(rate, filter, loading, force));
          }
        }
      }
    }
    return cells.stream();
  }

  @ParameterizedTest
  @MethodSource("tremorCells")
  void withTremor(double rate, RigModel.Filter filter, double loading, ErrorCell.Tremor tremor) {
    for (double force : FORCES) {
      ErrorCell c = ErrorCell.measure(rate, filter, loading, force, tremor, 12, 815);
      assertThat(c.found()).isEqualTo(c.cuts());
      double factor = loading >= 60 ? 2 : 1;
      assertThat(factor * c.rmsPercent()).isLessThan(c.observedRmsPercent());
    }
  }

  static Stream<Arguments> tremorCells() {
    List<Arguments> cells = new ArrayList<>();
    for (RigModel.Filter filter : FILTERS) {
      for (double loading : LOADINGS) {
        cells.add(Arguments.of(80.0, filter, loading, ErrorCell.Tremor.SINUSOID));
        cells.add(Arguments.of(80.0, filter, loading, ErrorCell.Tremor.RANDOM));
      }
    }
    return cells.stream();
  }

  @Test
  void twoStandardUncertaintiesCoverNinetyToNinetyNinePercent() {
    double covered = 0;
    int cells = 0;
    for (RigModel.Filter filter : FILTERS) {
      for (double loading : LOADINGS) {
        for (ErrorCell.Tremor tremor : ErrorCell.Tremor.values()) {
          covered += ErrorCell.measure(80, filter, loading, 100, tremor, 20, 99).covered();
          cells++;
        }
      }
    }
    assertThat(covered / cells).isBetween(0.90, 0.99);
  }

  @ParameterizedTest
  @MethodSource("fastLoadings")
  void tenSamplesPerSecondAreTooFew(RigModel.Filter filter, double loading) {
    ErrorCell c = ErrorCell.measure(10, filter, loading, 40, ErrorCell.Tremor.NONE, 10, 3);
    assertThat(c.found()).isEqualTo(c.cuts());
    assertThat(c.tooFast()).isEqualTo(1);
  }

  static Stream<Arguments> fastLoadings() {
    return Stream.of(FILTERS).flatMap(f -> Stream.of(60.0, 150.0).map(l -> Arguments.of(f, l)));
  }
}
