package snick.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
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
 * {@code format-1.zip} was written by the first version of format 1 and is never made again: what
 * it says must be read by every later version. Its content is invented.
 */
class FrozenFormatTest {
  @TempDir Path temporary;
  private Path sample;

  @BeforeEach
  void sample() throws IOException {
    sample = temporary.resolve("format-1.zip");
    try (InputStream in = getClass().getResourceAsStream("format-1.zip")) {
      Files.copy(in, sample);
    }
  }

  @Test
  void formatOneIsReadToItsLastField() throws IOException {
    try (Store store = Store.open(temporary.resolve("store"), Bench.CLOCK)) {
      PackageImport.Result result =
          new PackageImport(sample, Optional.empty(), Watch.NONE).into(store, true);
      assertThat(result.stored()).contains(new Origin.Outcome(6, 0, false));
    }
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
}
