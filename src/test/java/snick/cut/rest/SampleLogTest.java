package snick.cut.rest;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class SampleLogTest {
  private final SampleLog log = new SampleLog();

  private int[] rails() {
    boolean[] marks = log.copyOfOverrange();
    assertThat(IntStream.range(0, log.size()).allMatch(i -> log.usable()[i] != marks[i])).isTrue();
    assertThat(IntStream.range(0, log.size()).allMatch(i -> log.overrange(i) == marks[i])).isTrue();
    return IntStream.range(0, log.size()).filter(i -> marks[i]).toArray();
  }

  private void calm(int n) {
    log.add(new long[n], new int[n], 0, n);
  }

  @Test
  void marksOfRailsStayWithTheirSamplesAndDoNotOutliveThem() {
    calm(2);
    log.add(0, 0x7FFFFF, true);
    log.add(0, 1, false);
    calm(5000);
    assertThat(rails()).containsExactly(2);
    log.add(new long[3], new int[3], new boolean[] {true, false, true}, 0, 3);
    calm(3);
    log.keep(log.size() - 1);
    assertThat(rails()).containsExactly(2, 5004, 5006);
    log.clear();
    calm(6000);
    assertThat(rails()).isEmpty();
  }

  @Test
  void readingsAndTimesFromAGivenOne() {
    log.add(new long[] {10, 20, 35}, new int[] {5, 7, 4}, 0, 3);
    assertThat(log.countsFrom(4.5, -1)).containsExactly(-0.5, -2.5, 0.5);
    assertThat(log.nanosSince(1)).containsExactly(0, 15);
    assertThat(log.nanosSince(3)).isEmpty();
    assertThat(log.copyOfCounts(1, 3)).containsExactly(7, 4);
  }
}
