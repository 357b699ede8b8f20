package snick.cli.terminal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import org.junit.jupiter.api.Test;
import snick.quantity.MeasuredForce;

class NumbersTest {
  /**
   * Two significant digits of the uncertainty, the value rounded to the same place: JCGM 100,
   * 7.2.6.
   */
  @Test
  void theValueIsRoundedWhereItsUncertaintyIs() {
    assertThat(Numbers.plusMinus(131.4321, 1.234)).isEqualTo("131.4 ± 1.2");
    assertThat(Numbers.plusMinus(131.4321, 0.0456)).isEqualTo("131.432 ± 0.046");
    assertThat(Numbers.plusMinus(131.4321, 23.4)).isEqualTo("131 ± 23");
    assertThat(Numbers.plusMinus(131.4321, 0)).isEqualTo("131.432");
    assertThat(Numbers.plusMinus(212000, 0)).isEqualTo("212000");
    assertThat(Numbers.plusMinus(0, 0)).isEqualTo("0");
  }

  @Test
  void aDecimalCommaNeverAppears() {
    Locale before = Locale.getDefault();
    Locale.setDefault(Locale.GERMANY);
    try {
      assertThat(Numbers.newtons(MeasuredForce.ofNewtons(1.25, 0.01))).isEqualTo("1.250 ± 0.020 N");
    } finally {
      Locale.setDefault(before);
    }
  }
}
