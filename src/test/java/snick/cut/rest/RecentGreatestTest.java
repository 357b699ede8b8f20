package snick.cut.rest;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Collections;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

class RecentGreatestTest {
  @Property(tries = 300)
  void itIsTheGreatestOfTheNewestValues(
      @ForAll @IntRange(min = 1, max = 17) int capacity,
      @ForAll @Size(min = 1, max = 80) List<@IntRange(min = 0, max = 9) Integer> values) {
    RecentGreatest greatest = new RecentGreatest(capacity);
    assertThat(greatest.greatest()).isZero();
    for (int i = 0; i < values.size(); i++) {
      greatest.add(values.get(i));
      List<Integer> kept = values.subList(Math.max(0, i + 1 - capacity), i + 1);
      assertThat(greatest.greatest()).isEqualTo(Collections.max(kept));
    }
    greatest.clear();
    greatest.add(3);
    assertThat(greatest.greatest()).isEqualTo(3);
  }
}
