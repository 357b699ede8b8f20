package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

class RankedTest {
  /** Beside the library's sorting. */
  @Property
  void isTheValueAtThatPlaceOfTheSorted(
      @ForAll @Size(min = 1, max = 200) List<@IntRange(max = Integer.MAX_VALUE) Integer> any,
      @ForAll @IntRange(max = 199) int place) {
    int[] values = any.stream().mapToInt(v -> v).toArray();
    int rank = place % values.length;
    int[] sorted = values.clone();
    Arrays.sort(sorted);
    assertThat(Ranked.of(values, rank)).isEqualTo(sorted[rank]);
  }

  @Property
  void manyAlike(
      @ForAll @Size(min = 1, max = 50) List<@IntRange(max = 3) Integer> any,
      @ForAll @IntRange(max = 49) int place) {
    isTheValueAtThatPlaceOfTheSorted(any, place);
  }
}
