package snick.cut.rest;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

class RunningMedianTest {
  @Property(tries = 500)
  void medianOfTheLastFiveOrAtSlowRatesThree(
      @ForAll @Size(min = 5, max = 40) List<@IntRange(min = -9, max = 9) Integer> values,
      @ForAll boolean slow) {
    RunningMedian median = new RunningMedian();
    double periodNanos = slow ? 100e6 : 12.5e6;
    median.restart(periodNanos, 0);
    int length = slow ? 3 : 5;
    for (int i = 0; i < values.size(); i++) {
      int found = median.add(values.get(i));
      if (i >= length - 1) {
        int[] last = values.subList(i + 1 - length, i + 1).stream().mapToInt(v -> v).toArray();
        Arrays.sort(last);
        assertThat(found).isEqualTo(last[length / 2]);
      }
    }
    assertThat(RunningMedian.delay(periodNanos)).isEqualTo(length / 2);
  }

  @Property(tries = 50)
  void readingsBeforeTheFirstCountAsGiven(
      @ForAll @IntRange(min = -9, max = 9) int before, @ForAll boolean slow) {
    RunningMedian median = new RunningMedian();
    median.restart(slow ? 100e6 : 12.5e6, before);
    for (int i = 0; i < (slow ? 1 : 2); i++) {
      assertThat(median.add(100)).isEqualTo(before);
    }
    assertThat(median.add(100)).isEqualTo(100);
  }

  @Property(tries = 300)
  void aroundAReadingTheSameAsBehindIt(
      @ForAll @Size(min = 5, max = 40) List<@IntRange(min = -9, max = 9) Integer> values,
      @ForAll boolean slow) {
    RunningMedian median = new RunningMedian();
    median.restart(slow ? 100e6 : 12.5e6, 0);
    int delay = slow ? 1 : 2;
    double[] x = values.stream().mapToDouble(v -> v).toArray();
    for (int i = 0; i < x.length; i++) {
      int behind = median.add(values.get(i));
      if (i >= 2 * delay) {
        assertThat(RunningMedian.around(x, i - delay, delay)).isEqualTo(behind);
      }
    }
    assertThat(RunningMedian.around(x, 0, delay)).isEqualTo(x[0]);
    assertThat(RunningMedian.around(x, x.length - 1, delay)).isEqualTo(x[x.length - 1]);
  }
}
