package snick.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class QuantityTest {
  /** Standard gravity 9.806 65 m/s², exact: CGPM 1901; so 1 gf = 9.806 65 mN. */
  @Test
  void oneGramForceIsTheWeightOfOneGramAtStandardGravity() {
    assertThat(Force.ofGramForce(1).newtons()).isEqualTo(0.00980665);
    assertThat(Force.ofNewtons(9.80665).gramForce()).isCloseTo(1000, within(1e-12));
  }

  @Property
  void gramForceRoundTrips(@ForAll @DoubleRange(min = -1e6, max = 1e6) double gramForce) {
    assertThat(Force.ofGramForce(gramForce).gramForce())
        .isCloseTo(gramForce, within(Math.ulp(gramForce) * 2));
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, 1.1e6, -1.1e6})
  void noForceOutsideItsRange(double newtons) {
    assertThatThrownBy(() -> Force.ofNewtons(newtons)).isInstanceOf(IllegalArgumentException.class);
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, -1e-9, Double.POSITIVE_INFINITY})
  void noMassOutsideItsRange(double kilograms) {
    assertThatThrownBy(() -> new Mass(kilograms)).isInstanceOf(IllegalArgumentException.class);
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, 0, -80, 1e9})
  void noRateOutsideItsRange(double hertz) {
    assertThatThrownBy(() -> new SampleRate(hertz)).isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void noNegativeUncertainty() {
    assertThatThrownBy(() -> MeasuredForce.ofNewtons(1, -0.1))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
