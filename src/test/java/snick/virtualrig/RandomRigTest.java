package snick.virtualrig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.settings.Parting;

class RandomRigTest {
  private static final List<RandomRig> RIGS =
      LongStream.rangeClosed(1, 200).mapToObj(RandomRig::of).toList();

  @Test
  void theSameSeedGivesTheSameRigAndReadings() {
    RandomRig rig = RIGS.get(3);
    assertThat(RandomRig.of(rig.seed())).isEqualTo(rig);
    assertThat(counts(RandomRig.of(4))).isEqualTo(counts(rig)).isNotEqualTo(counts(RIGS.get(4)));
  }

  private static List<Integer> counts(RandomRig rig) {
    List<Integer> counts = new ArrayList<>();
    rig.play(rig.cuts(2, 0.4, 0.5), (nanos, reading) -> counts.add(reading));
    return counts;
  }

  @Test
  void theDrawReachesAllKindsAndBothEndsOfItsRanges() {
    assertThat(RIGS)
        .extracting(rig -> rig.settings().fixture().parting().law())
        .contains(Parting.Law.values());
    assertThat(
            RIGS.stream()
                .map(rig -> rig.settings().converter().filter())
                .map(f -> f.boxes() + "," + f.periodsEach() + "," + f.poles())
                .collect(Collectors.toSet()))
        .containsExactlyInAnyOrder("1,1,0", "1,4,0", "4,1,0", "0,1,1", "0,1,2", "0,1,3");
    double[] resonances =
        RIGS.stream()
            .mapToDouble(rig -> rig.settings().fixture().mechanics().orElseThrow().resonanceHertz())
            .sorted()
            .toArray();
    assertThat(resonances[0]).isBetween(25.0, 27.0);
    assertThat(resonances[199]).isBetween(330.0, 350.0);
  }

  @Test
  void everyCutAskedForHappensAndEndsAtRest() {
    for (RandomRig rig : RIGS.subList(0, 10)) {
      List<Double> seen = new ArrayList<>();
      double drift = rig.settings().disturbance().driftGramForcePerSecond();
      int zero = rig.settings().converter().zeroCounts();
      List<TrueCut> truths =
          rig.play(
              rig.cuts(3, 0.35, 0.5),
              (nanos, counts) -> seen.add((counts - zero) / 437.25 - drift * nanos / 1e9));
      assertThat(truths).hasSize(3).allMatch(truth -> truth.kind() == TrueCut.Kind.SEVERED);
      List<Double> last = seen.subList(seen.size() - 20, seen.size());
      assertThat(last.stream().mapToDouble(d -> d).average().orElseThrow())
          .as("seed %d", rig.seed())
          .isCloseTo(0, within(0.5));
    }
  }
}
