package snick.exchange.check;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cut.Cut;
import snick.cut.CutFigures;
import snick.cut.Peak;
import snick.exchange.Bench;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.database.Watch;
import snick.store.record.NewResult;

class StoreCheckTest {
  private static final int PRESSES = 8;

  @TempDir Path directory;

  @BeforeEach
  void fill() {
    Bench.fill(directory, PRESSES);
  }

  private StoreCheck.Report check(Watch watch) {
    try (StoreReader reader = StoreReader.open(directory)) {
      return StoreCheck.of(reader, watch);
    }
  }

  @Test
  void whatWasFoundIsFoundAgain() {
    TreeSet<String> told = new TreeSet<>();
    StoreCheck.Report report =
        check(
            (doing, done, total) -> {
              told.add(doing);
              return true;
            });
    assertThat(report.differences()).isEmpty();
    assertThat(report.integrity().isSound()).isTrue();
    assertThat(report.again()).isEqualTo(report.integrity().traces()).isPositive();
    assertThat(told).contains("checking traces", "deriving again");
  }

  @Test
  void aResultThatTheTraceDoesNotGiveIsNamed() {
    Cut found;
    try (StoreReader reader = StoreReader.open(directory)) {
      found = reader.cut(1).orElseThrow().cut();
    }
    Cut claimed =
        new Cut(
            found.number(),
            new CutFigures(
                found.outcome(),
                found.polarity(),
                found.onsetNanos(),
                found.breakNanos(),
                Optional.of(new Peak(70_000, 71_000.5, 20)),
                found.shape(),
                found.rest(),
                found.flags()),
            found.trace());
    try (Store store = Store.open(directory, Bench.CLOCK)) {
      store.addResults(List.of(new NewResult(1, Optional.of(claimed), Optional.empty())));
    }
    StoreCheck.Report report = check(Watch.NONE);
    assertThat(report.differing()).isEqualTo(1);
    assertThat(report.differences())
        .anyMatch(d -> d.startsWith("cut 1: estimate_counts is 71000.5, the trace gives 54"));
  }

  @Test
  void itStopsWhenAsked() {
    assertThatThrownBy(() -> check((doing, done, total) -> !doing.equals("deriving again")))
        .isInstanceOf(Watch.Stopped.class);
  }
}
