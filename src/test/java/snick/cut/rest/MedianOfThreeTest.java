package snick.cut.rest;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

class MedianOfThreeTest {
  private final MedianOfThree values = new MedianOfThree();

  @Property(tries = 300)
  void medianOfTheNewestThreeOrFewer(
      @ForAll @Size(min = 1, max = 30) List<@IntRange(min = -9, max = 9) Integer> any) {
    values.clear();
    for (int i = 0; i < any.size(); i++) {
      values.add(0.5 * any.get(i));
      double[] last =
          any.subList(Math.max(0, i - 2), i + 1).stream().mapToDouble(v -> 0.5 * v).toArray();
      Arrays.sort(last);
      double median = 0.5 * (last[(last.length - 1) / 2] + last[last.length / 2]);
      assertThat(values.median()).isEqualTo(median);
    }
  }

  @Example
  void replacedValuesGoOutOneByOne() {
    values.add(1);
    values.add(2);
    values.add(3);
    values.replaceAll(100.25);
    values.add(7);
    assertThat(values.median()).isEqualTo(100.25);
    values.add(5);
    assertThat(values.median()).isEqualTo(7);
  }
}
