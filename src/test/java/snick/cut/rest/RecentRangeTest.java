package snick.cut.rest;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Collections;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

class RecentRangeTest {
  @Property(tries = 300)
  void itIsTheRangeOfTheNewestValues(
      @ForAll @IntRange(min = 1, max = 17) int capacity,
      @ForAll @Size(min = 1, max = 80) List<@IntRange(min = -9, max = 9) Integer> values,
      @ForAll @IntRange(min = -5, max = 5) int step) {
    RecentRange range = new RecentRange(capacity);
    for (int i = 0; i < values.size(); i++) {
      range.add(values.get(i));
      List<Integer> kept = values.subList(Math.max(0, i + 1 - capacity), i + 1);
      assertThat(range.least()).isEqualTo(Collections.min(kept).doubleValue());
      assertThat(range.greatest()).isEqualTo(Collections.max(kept).doubleValue());
    }
    double least = range.least();
    range.shift(step);
    assertThat(range.least()).isEqualTo(least + step);
    range.add(1000);
    assertThat(range.greatest()).isEqualTo(1000);
    range.clear();
    range.add(3);
    assertThat(range.least()).isEqualTo(3).isEqualTo(range.greatest());
  }
}
