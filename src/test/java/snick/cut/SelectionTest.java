package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

class SelectionTest {
  /** Beside the library's sorting, over all integers; what lies outside the part stays. */
  @Property
  void putsTheValueOfThatRankInItsPlaceAndPartsTheOthers(
      @ForAll @Size(min = 3, max = 200) List<Integer> any, @ForAll @IntRange(max = 199) int place) {
    int[] values = any.stream().mapToInt(v -> v).toArray();
    int to = values.length - 1;
    int at = 1 + place % (to - 1);
    int[] sorted = values.clone();
    Arrays.sort(sorted, 1, to);
    Selection.place(values, 1, to, at);
    assertThat(values[at]).isEqualTo(sorted[at]);
    Arrays.sort(values, 1, at);
    Arrays.sort(values, at + 1, to);
    assertThat(values).isEqualTo(sorted);
  }

  @Property
  void manyAlike(
      @ForAll @Size(min = 3, max = 50) List<@IntRange(min = -1, max = 2) Integer> any,
      @ForAll @IntRange(max = 49) int place) {
    putsTheValueOfThatRankInItsPlaceAndPartsTheOthers(any, place);
  }
}
