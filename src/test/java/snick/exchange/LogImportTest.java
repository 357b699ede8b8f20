package snick.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cut.Outcome;
import snick.exchange.json.RefusedPackage;
import snick.quantity.SampleRate;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.store.record.Origin;
import snick.store.record.Recording;

class LogImportTest {
  private static final Instant STARTED = Instant.parse("2025-11-02T18:00:00Z");

  @TempDir Path data;

  /** A log as a home-made sketch prints it: a heading, then micros,counts. */
  private static String log(int presses) {
    SplittableRandom random = new SplittableRandom(7);
    StringBuilder text = new StringBuilder("micros,counts\r\n");
    long micros = 4_294_000_000L;
    for (int press = 0; press < presses; press++) {
      for (int i = 0; i < 320; i++) {
        int ramp = Math.max(0, i - 240);
        int load = ramp < 77 ? 700 * ramp : ramp == 77 ? 36_000 : ramp == 78 ? 9_000 : 400;
        text.append(micros % 4_294_967_296L).append(',');
        text.append(8_000 + load + random.nextInt(-90, 91)).append("\r\n");
        micros += 12_500;
      }
    }
    for (int i = 0; i < 80; i++) {
      text.append(micros % 4_294_967_296L).append(",8000\r\n");
      micros += 12_500;
    }
    return text.toString();
  }

  private static LogImport of(String text) {
    return new LogImport(
        "old.csv",
        () -> bytes(new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8))),
        new SampleRate(80));
  }

  private static LogImport.Bytes bytes(InputStream in) {
    return new LogImport.Bytes() {
      @Override
      public int read(byte[] buffer) throws IOException {
        return in.read(buffer);
      }

      @Override
      public void close() throws IOException {
        in.close();
      }
    };
  }

  @Test
  void oldLogsBecomeARecordingWithItsCutsOnce() throws IOException {
    LogImport log = of(log(4));
    LogImport.Facts facts = log.look();
    assertThat(facts.samples()).isEqualTo(4 * 320 + 80);
    assertThat(facts.deviceId()).isEmpty();
    try (Store store = Store.open(data, Bench.CLOCK)) {
      assertThat(log.into(store, facts, "bench", STARTED))
          .isEqualTo(new Origin.Outcome(facts.cuts(), 0, false));
      assertThat(log.into(store, facts, "bench", STARTED))
          .isEqualTo(new Origin.Outcome(0, 0, true));
    }
    try (StoreReader reader = StoreReader.open(data)) {
      List<CutSummary> cuts = reader.latest(CutSelection.all(), 100);
      assertThat(cuts).hasSize(4).allMatch(c -> c.figures().outcome() == Outcome.SEVERED);
      CutSummary first = cuts.get(3);
      assertThat(first.occurredAt()).isBetween(STARTED.plusSeconds(3), STARTED.plusSeconds(4));
      Recording recording = reader.recording(first.recordingId()).orElseThrow().recording();
      assertThat(recording.form()).isEqualTo(Recording.Form.TEXT);
      assertThat(recording.deviceId()).isEqualTo("bench");
      assertThat(reader.originOfCut(first.id()).orElseThrow().origin().kind()).isEqualTo("log");
    }
  }

  @Test
  void aLogThatChangesBetweenItsTwoReadingsIsRefused() throws IOException {
    LogImport.Facts facts = of(log(2)).look();
    try (Store store = Store.open(data, Bench.CLOCK)) {
      assertThatThrownBy(() -> of(log(3)).into(store, facts, "bench", STARTED))
          .isInstanceOf(RefusedPackage.class)
          .hasMessageContaining("changed");
    }
    try (StoreReader reader = StoreReader.open(data)) {
      assertThat(reader.count(CutSelection.all())).isZero();
      assertThat(reader.rigs()).isEmpty();
    }
  }
}
