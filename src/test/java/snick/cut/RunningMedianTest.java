package snick.cut;

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
    median.restart(slow ? 100e6 : 12.5e6);
    int length = slow ? 3 : 5;
    for (int i = 0; i < values.size(); i++) {
      double found = median.add(values.get(i));
      if (i >= length - 1) {
        int[] last = values.subList(i + 1 - length, i + 1).stream().mapToInt(v -> v).toArray();
        Arrays.sort(last);
        assertThat(found).isEqualTo(last[length / 2]);
      }
    }
    assertThat(median.delay()).isEqualTo(length / 2);
  }
}
