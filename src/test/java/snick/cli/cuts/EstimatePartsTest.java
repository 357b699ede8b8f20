package snick.cli.cuts;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cli.Ran;
import snick.store.StoreReader;
import snick.store.record.StoredCut;

/** The parts of an estimate's uncertainty, as {@code cuts show} tells them. */
class EstimatePartsTest {
  @TempDir private Path folder;

  private Path recorded() {
    Path data = folder.resolve("store");
    Ran ran =
        Ran.command("run", "demo-data/kitchen-knife.capture", "--no-http", "--data", "" + data);
    assertThat(ran.exit()).as(ran.err()).isZero();
    return data;
  }

  @Test
  void partsMakeTheUncertaintyThatIsStored() throws Exception {
    try (StoreReader store = StoreReader.open(recorded())) {
      StoredCut cut = store.cut(1).orElseThrow();
      Map<String, Object> parts = EstimateParts.of(cut.cut()).orElseThrow().json();
      double variance = parts.values().stream().mapToDouble(u -> Math.pow((Double) u, 2)).sum();
      double u = cut.cut().peak().orElseThrow().standardUncertaintyCounts();
      assertThat(parts).hasSize(5);
      assertThat(Math.sqrt(variance)).isCloseTo(u, within(1e-9 * u));
    }
  }

  @Test
  void cutsShowTellsThem() {
    Path data = recorded();
    String shown = Ran.command("cuts", "show", "1", "--data", "" + data).out();
    assertThat(shown).contains("made of", "course", "parting and lag", "zero");
    assertThat(Ran.command("cuts", "show", "1", "--json", "--data", "" + data).out())
        .contains("\"estimate_budget\"", "\"u_parting_and_lag_counts\"");
  }
}
