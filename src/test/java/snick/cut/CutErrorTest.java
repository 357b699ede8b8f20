package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Error of the estimate on modelled cuts of known force, and the honesty of its uncertainty. */
class CutErrorTest {
  private static final double[] LOADINGS = {20, 60, 150, 400};
  private static final double[] FORCES = {40, 100, 220};

  /** Filter and fall leave but three of so few readings untouched; those cuts are flagged. */
  private static final int FEW_READINGS = 10;

  private static final RigModel.Filter[] FILTERS = {RigModel.Filter.BOX4, RigModel.Filter.SINC4};

  @ParameterizedTest
  @MethodSource("steadyCells")
  void withoutTremor(double rate, RigModel.Filter filter, double loading, double force) {
    ErrorCell c =
        ErrorCell.measure(rate, filter, loading, force, ErrorCell.Tremor.NONE, 12, 90_210);
    assertThat(c.found()).isEqualTo(c.cuts());
    boolean brief = force / loading * rate < FEW_READINGS;
    assertThat(c.tooFast()).isGreaterThanOrEqualTo(brief ? 1 : 0);
    assertThat(c.meanPercent()).isBetween(brief ? -0.9 : -0.3, brief ? 0.9 : 0.3);
    assertThat(c.rmsPercent()).isLessThanOrEqualTo(brief ? 1.5 : 0.5);
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
  void withTremor(
      double rate,
      RigModel.Filter filter,
      double loading,
      ErrorCell.Tremor tremor,
      ErrorCell.Parting parting) {
    double square = 0;
    double observedSquare = 0;
    for (double force : FORCES) {
      ErrorCell c = ErrorCell.measure(rate, filter, loading, force, tremor, parting, 12, 5_077);
      assertThat(c.found()).isEqualTo(c.cuts());
      square += c.rmsPercent() * c.rmsPercent();
      observedSquare += c.observedRmsPercent() * c.observedRmsPercent();
    }
    double factor = loading >= 60 ? 2 : 1;
    assertThat(factor * Math.sqrt(square)).isLessThan(Math.sqrt(observedSquare));
  }

  static Stream<Arguments> tremorCells() {
    List<Arguments> cells = new ArrayList<>();
    for (RigModel.Filter filter : FILTERS) {
      for (double loading : LOADINGS) {
        for (ErrorCell.Parting parting : ErrorCell.Parting.values()) {
          cells.add(Arguments.of(80.0, filter, loading, ErrorCell.Tremor.SINUSOID, parting));
          cells.add(Arguments.of(80.0, filter, loading, ErrorCell.Tremor.RANDOM, parting));
          cells.add(Arguments.of(320.0, filter, loading, ErrorCell.Tremor.SINUSOID, parting));
        }
      }
    }
    return cells.stream();
  }

  /**
   * Benches that part at once and have a stiff fixture: what a first cut leaves open of both is
   * part of the uncertainty, so it covers nearly all. {@link StrangersRigsTest} judges both sides.
   */
  @ParameterizedTest
  @EnumSource(ErrorCell.Parting.class)
  void overTheGridTheMeanIsRightAndTheUncertaintyHonest(ErrorCell.Parting parting) {
    double covered = 0;
    double mean = 0;
    int cells = 0;
    for (RigModel.Filter filter : FILTERS) {
      for (double loading : LOADINGS) {
        for (double force : FORCES) {
          for (ErrorCell.Tremor tremor : ErrorCell.Tremor.values()) {
            ErrorCell c =
                ErrorCell.measure(80, filter, loading, force, tremor, parting, 20, 31_337);
            covered += c.covered();
            mean += c.meanPercent();
            cells++;
          }
        }
      }
    }
    assertThat(covered / cells).isBetween(0.90, 0.995);
    assertThat(mean / cells).isBetween(-0.3, 0.3);
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
