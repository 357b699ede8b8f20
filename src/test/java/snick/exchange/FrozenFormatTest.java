package snick.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cut.Outcome;
import snick.journal.SessionLog;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.database.Watch;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.store.record.Origin;

/**
 * {@code format-1.zip}: what it says must be read by every version after the first release. Its
 * content is invented.
 */
class FrozenFormatTest {
  @TempDir Path temporary;

  private void takeIn() throws IOException {
    Path sample = temporary.resolve("format-1.zip");
    try (InputStream in = getClass().getResourceAsStream("format-1.zip")) {
      Files.copy(in, sample);
    }
    try (Store store = Store.open(temporary.resolve("store"), Bench.CLOCK)) {
      PackageImport.Result result =
          new PackageImport(sample, Optional.empty(), Watch.NONE).into(store, true);
      assertThat(result.stored()).contains(new Origin.Outcome(6, 0, false));
    }
  }

  @Test
  void formatOneIsReadToItsHistory() throws IOException {
    takeIn();
    try (StoreReader reader = StoreReader.open(temporary.resolve("store"))) {
      List<CutSummary> cuts = reader.latest(CutSelection.all(), 10);
      assertThat(cuts).hasSize(6);
      assertThat(reader.cut(1).orElseThrow().trace().size()).isEqualTo(253);
      assertThat(cuts.get(0).figures().outcome()).isEqualTo(Outcome.OVERRANGE);
      assertThat(reader.calibrations().get(0).calibration()).isEqualTo(Bench.calibration());
      assertThat(reader.results(1)).hasSize(2);
      assertThat(reader.forces(1)).hasSize(3);
      assertThat(reader.journal().bladeHistory("=2+5 petty")).hasSize(2);
      assertThat(reader.journal().filamentLotHistory("lot 3")).hasSize(2);
      assertThat(reader.journal().sessionHistory(Bench.SESSION)).hasSize(2);
      SessionLog log = reader.journal().log(Bench.SESSION).orElseThrow();
      assertThat(log.entries().all()).filteredOn(e -> e.corrects().isPresent()).hasSize(3);
      assertThat(log.inspections()).isEmpty();
      assertThat(reader.setAsideActs(4)).hasSize(2);
      assertThat(reader.verificationsOf(Bench.calibration().id()))
          .singleElement()
          .extracting(v -> v.shown().value().newtons())
          .isEqualTo(0.9811);
    }
  }
}
