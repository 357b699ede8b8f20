package snick.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cut.Cut;
import snick.cut.CutDetector;
import snick.cut.DetectorSettings;
import snick.cut.Rederivation;
import snick.cut.response.Response;
import snick.exchange.check.StoreCheck;
import snick.exchange.write.ExportChoice;
import snick.exchange.write.PackageExport;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.database.Watch;
import snick.store.record.CutSelection;
import snick.store.record.NewCut;
import snick.store.record.Recording;
import snick.store.record.StoredResponse;
import snick.virtualrig.RandomRig;

/**
 * Quick cuts on random rigs that ring, drift and keep a load, what is learned of each in use: all
 * that their results are derived from goes through the store and through a package.
 */
class QuickCutsTest {
  private static final int CUTS = 7;
  private static final long[] SEEDS = {7_001, 7_002, 7_003};

  @TempDir Path temporary;

  private List<Cut> fill(Path data) {
    List<Cut> all = new ArrayList<>();
    try (Store store = Store.open(data, Bench.CLOCK)) {
      for (long seed : SEEDS) {
        List<Cut> cuts = new ArrayList<>();
        CutDetector detector =
            CutDetector.learning(DetectorSettings.defaults(), cuts::add, Runnable::run);
        RandomRig.of(seed).play(RandomRig.of(seed).cuts(CUTS, 0.35, 1), detector::sample);
        detector.end();
        keep(store, seed, cuts);
        all.addAll(cuts);
      }
    }
    return all;
  }

  private static void keep(Store store, long seed, List<Cut> cuts) {
    Recording like = Bench.recording();
    String rig = "rig-" + seed;
    long recording =
        store.startRecording(
            new Recording(
                rig,
                like.firmware(),
                like.source(),
                like.form(),
                Bench.NOON,
                like.gain(),
                Optional.empty(),
                0));
    Map<Integer, Long> ids = new HashMap<>();
    Response last = Response.unknown();
    for (Cut cut : cuts) {
      if (!cut.response().equals(last)) {
        last = cut.response();
        store.add(
            new StoredResponse(rig, Optional.empty(), Bench.NOON, last, List.copyOf(ids.values())));
      }
      long id = store.append(NewCut.of(recording, Bench.NOON.plusNanos(cut.onsetNanos()), cut));
      ids.put(cut.number(), id);
    }
  }

  private static void assertSame(Path data, List<Cut> live) {
    Rederivation again = new Rederivation();
    Map<Map<String, Object>, Cut> found = new HashMap<>();
    try (StoreReader reader = StoreReader.open(data)) {
      reader.forEachCut(
          CutSelection.all(),
          cut -> found.put(again.of(cut.cut()).orElseThrow().figures().values(), cut.cut()));
      assertThat(found.keySet())
          .containsExactlyInAnyOrderElementsOf(
              live.stream().map(cut -> cut.figures().values()).toList());
      StoreCheck.Report report = StoreCheck.of(reader, Watch.NONE);
      assertThat(report.differences()).isEmpty();
      assertThat(report.again()).isEqualTo(live.size());
    }
  }

  @Test
  void areDerivedAgainToTheLastDigitFromTheStoreAndFromAnImport() throws IOException {
    Path own = temporary.resolve("own");
    Path theirs = temporary.resolve("theirs");
    List<Cut> live = fill(own);
    assertThat(live).hasSizeGreaterThanOrEqualTo(SEEDS.length * CUTS);
    assertThat(live.stream().filter(cut -> cut.response().known())).isNotEmpty();
    assertSame(own, live);
    Path zip = temporary.resolve("all.zip");
    try (StoreReader reader = StoreReader.open(own)) {
      new PackageExport(reader, ExportChoice.of(CutSelection.all()), Watch.NONE).toZip(zip);
    }
    try (Store store = Store.open(theirs, Bench.CLOCK)) {
      PackageImport.Result result =
          new PackageImport(zip, Optional.empty(), Watch.NONE).into(store, false);
      assertThat(result.report().differences()).isEmpty();
      assertThat(result.report().again()).isEqualTo(live.size());
    }
    assertSame(theirs, live);
  }
}
