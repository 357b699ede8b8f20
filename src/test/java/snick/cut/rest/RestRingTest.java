package snick.cut.rest;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.IntStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RestRingTest {
  private final RestRing ring = new RestRing();

  /** A sample at a rail is known as such until it is overwritten, and its place no longer. */
  @ParameterizedTest
  @ValueSource(ints = {1, 2, 16, 100})
  void samplesThatOverwriteRailsAreAtNone(int blockLength) {
    ring.add(new long[5], new int[5], 0, 5);
    ring.add(5, 0x7FFFFF, true);
    for (int since = blockLength; since < 3 * RestRing.CAPACITY; since += blockLength) {
      ring.add(new long[blockLength], new int[blockLength], 0, blockLength);
      int[] rails = IntStream.range(0, ring.size()).filter(ring::overrange).toArray();
      assertThat(rails).isEqualTo(since < ring.size() ? new int[] {since} : new int[0]);
    }
  }
}
