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
import snick.force.Calibration;
import snick.journal.SessionLog;
import snick.quantity.MeasuredForce;
import snick.store.CutSelection;
import snick.store.CutSummary;
import snick.store.Origin;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.Watch;

/**
 * {@code format-1.zip} and {@code format-2.zip} were written by the first version of each format
 * and are never made again: what they say must be read by every later version. Their content is
 * invented.
 */
class FrozenFormatTest {
  @TempDir Path temporary;

  private Path sample(String name) throws IOException {
    Path sample = temporary.resolve(name);
    try (InputStream in = getClass().getResourceAsStream(name)) {
      Files.copy(in, sample);
    }
    return sample;
  }

  private void takeIn(String name) throws IOException {
    Path sample = sample(name);
    try (Store store = Store.open(temporary.resolve("store"), Bench.CLOCK)) {
      PackageImport.Result result =
          new PackageImport(sample, Optional.empty(), Watch.NONE).into(store, true);
      assertThat(result.stored()).contains(new Origin.Outcome(6, 0, false));
    }
  }

  @Test
  void formatOneIsReadToItsLastField() throws IOException {
    takeIn("format-1.zip");
    try (StoreReader reader = StoreReader.open(temporary.resolve("store"))) {
      List<CutSummary> cuts = reader.latest(CutSelection.all(), 10);
      assertThat(cuts).hasSize(6);
      CutSummary first = cuts.get(5);
      assertThat(first.result().outcome()).isEqualTo(Outcome.SEVERED);
      assertThat(first.result().peak().orElseThrow().estimateCounts())
          .isEqualTo(55_241.21106271785);
      assertThat(first.place().orElseThrow().placeMm()).hasValue(12.5);
      assertThat(reader.cut(first.id()).orElseThrow().trace().size()).isEqualTo(252);
      assertThat(cuts.get(0).result().outcome()).isEqualTo(Outcome.OVERRANGE);
      assertThat(cuts.get(4).setAside()).contains("slipped");
      Calibration calibration = reader.calibrations().get(0).calibration();
      assertThat(calibration).isEqualTo(Bench.calibration());
      MeasuredForce force = first.force().orElseThrow().force().estimate().measured().orElseThrow();
      assertThat(force.value().newtons()).isEqualTo(calibration.newtons(55_241.21106271785));
      SessionLog log = reader.journal().log(Bench.SESSION).orElseThrow();
      assertThat(log.stages()).hasSize(2);
      assertThat(log.inspections()).hasSize(1);
      assertThat(log.steps(log.stages().get(1))).hasSize(1);
      assertThat(log.session().operator()).contains("somebody");
    }
  }

  @Test
  void formatTwoIsReadToItsHistory() throws IOException {
    takeIn("format-2.zip");
    try (StoreReader reader = StoreReader.open(temporary.resolve("store"))) {
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
