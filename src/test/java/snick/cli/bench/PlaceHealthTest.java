package snick.cli.bench;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.force.Finding;
import snick.force.PlaceCheck;
import snick.store.Evidence;
import snick.store.Store;
import snick.store.StoreReader;

class PlaceHealthTest {
  private static final String RIG = "00a1b2c3d4e5f607";

  @TempDir private Path folder;

  @Test
  void theLastCheckOfTheRigCounts() {
    try (Store store = Store.open(folder, Clock.systemUTC())) {
      store.add(evidence(RIG, 1, "{\"largest\":0.2,\"limit\":0.005}"));
      store.add(evidence(RIG, 2, "{\"largest\":0.002,\"limit\":0.005}"));
      store.add(evidence("another", 3, "{\"largest\":0.3,\"limit\":0.005}"));
    }
    try (StoreReader store = StoreReader.open(folder)) {
      assertThat(PlaceHealth.of(store, RIG).orElseThrow().grade()).isEqualTo(Finding.Grade.PASS);
      assertThat(PlaceHealth.of(store, "never checked")).isEmpty();
    }
  }

  @Test
  void aRigThatReadsByPlaceIsWarnedOf() {
    HealthLine line = PlaceHealth.of("{\"largest\":0.2,\"limit\":0.005,\"within\":false}");
    assertThat(line.grade()).isEqualTo(Finding.Grade.WARN);
    assertThat(line.measured()).isEqualTo("20.000 % between places");
    assertThat(line.remedy()).contains("snick verify place");
  }

  private static Evidence evidence(String device, long second, String document) {
    return new Evidence(device, PlaceCheck.KIND, Instant.ofEpochSecond(second), document);
  }
}
