package snick.cut.rest;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

class SortedWindowTest {
  @Property(tries = 300)
  void mediansAreThoseOfTheNewestValuesSorted(
      @ForAll @IntRange(min = 1, max = 17) int capacity,
      @ForAll @Size(min = 1, max = 80) List<@IntRange(min = -9, max = 9) Integer> values) {
    SortedWindow window = new SortedWindow(capacity);
    for (int i = 0; i < values.size(); i++) {
      window.add(values.get(i));
      List<Integer> kept = new ArrayList<>(values.subList(Math.max(0, i + 1 - capacity), i + 1));
      Collections.sort(kept);
      double upper = kept.get(kept.size() / 2);
      double lower = kept.get((kept.size() - 1) / 2);
      assertThat(window.upperMedian()).isEqualTo(upper);
      assertThat(window.median()).isEqualTo(0.5 * (lower + upper));
    }
  }

  @Property(tries = 50)
  void replacedValuesGoOutOneByOne(@ForAll @IntRange(min = 1, max = 9) int capacity) {
    SortedWindow window = new SortedWindow(capacity);
    for (int i = 0; i < capacity; i++) {
      window.add(i);
    }
    window.replaceAll(100);
    for (int added = 1; added <= capacity; added++) {
      window.add(0);
      assertThat(window.upperMedian()).isEqualTo(capacity / 2 >= added ? 100 : 0);
    }
    window.clear();
    window.add(7);
    assertThat(window.median()).isEqualTo(7);
  }
}
