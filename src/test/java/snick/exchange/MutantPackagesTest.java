package snick.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.store.StoreReader;
import snick.store.database.Watch;

/** A short run with a fixed seed; {@code PackageFuzz} among the benchmarks runs as long as told. */
class MutantPackagesTest {
  private static final int MUTANTS = 200;

  @TempDir Path temporary;

  @Test
  void everyMutantIsRefusedWithCauseOrTakenInWhole() throws IOException {
    Mutants mutants = new Mutants(temporary, 20260504);
    Mutants.Outcome outcome = mutants.run(MUTANTS);
    assertThat(outcome.refused() + outcome.taken()).isEqualTo(MUTANTS);
    assertThat(outcome.refused()).isGreaterThan(MUTANTS / 2);
    assertThat(mutants.leftBehind()).isEmpty();
    try (StoreReader reader = StoreReader.open(temporary.resolve("theirs"))) {
      assertThat(reader.verify(Watch.NONE).problems()).isEmpty();
    }
  }
}
