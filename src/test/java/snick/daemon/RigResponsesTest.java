package snick.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cut.Cut;
import snick.cut.CutFigures;
import snick.cut.Outcome;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.cut.response.Response;
import snick.quantity.SampleRate;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.record.NewCut;
import snick.store.record.Recording;
import snick.store.record.StoredResponse;

/** Cuts on a fixture that rings at 20 Hz, damping ratio 0.1, at 80 samples/s. */
class RigResponsesTest {
  private static final Instant NOON = Instant.parse("2026-05-04T12:00:00Z");
  private static final Clock CLOCK = Clock.fixed(NOON, ZoneOffset.UTC);

  @TempDir private Path folder;

  private static Recording recording() {
    return new Recording(
        "00a1b2c3d4e5f607",
        "sketch 1.2",
        "port",
        Recording.Form.BINARY,
        NOON,
        OptionalInt.of(128),
        Optional.of(new SampleRate(80)),
        0);
  }

  private static Cut cut(int number, Response response) {
    int n = 120;
    long[] nanos = new long[n];
    int[] counts = new int[n];
    double omega = 2 * Math.PI * 20;
    for (int i = 0; i < n; i++) {
      double t = (i - 60) / 80.0 + 0.0017 * number;
      nanos[i] = i * 12_500_000L;
      double fallen = Math.exp(-0.1 * omega * t) * Math.cos(omega * Math.sqrt(0.99) * t);
      counts[i] = (int) (1e5 * (t < 0 ? 1 + t : fallen));
    }
    return new Cut(
        number,
        new CutFigures(
            Outcome.SEVERED,
            1,
            0,
            OptionalLong.of(60 * 12_500_000L - 1_700_000L * number),
            Optional.of(new Peak(1e5, 1e5, 100)),
            new CutFigures.Shape(1e5, 10_000_000, 0, 60),
            new CutFigures.Rest(0, 0, 50),
            Set.of()),
        new Trace(nanos, counts, new boolean[n], List.of()),
        response);
  }

  private static void keep(int cuts, int from, Store store, RigResponses responses) {
    long recordingId = store.startRecording(recording());
    for (int number = from; number < from + cuts; number++) {
      Cut cut = cut(number, responses.of(0));
      long id = store.append(NewCut.of(recordingId, NOON.plusSeconds(number), cut));
      responses.kept(0, recording(), id, cut);
    }
  }

  @Test
  void learnsAtTheFifthCutKeepsItAndGoesOnAfterARestart() {
    try (Store store = Store.open(folder, CLOCK)) {
      RigResponses responses = new RigResponses(1, store, CLOCK);
      responses.begin(0, recording());
      keep(4, 1, store, responses);
      assertThat(responses.of(0)).isEqualTo(Response.unknown());
      keep(2, 5, store, responses);
      assertThat(responses.of(0).ring().orElseThrow().hertz()).isBetween(19.0, 21.0);
    }
    try (Store store = Store.open(folder, CLOCK)) {
      RigResponses responses = new RigResponses(1, store, CLOCK);
      responses.begin(0, recording());
      assertThat(responses.of(0).falls()).isEqualTo(5);
      keep(4, 7, store, responses);
      assertThat(responses.of(0).falls()).isEqualTo(10);
    }
    try (StoreReader reader = StoreReader.open(folder)) {
      List<StoredResponse> stored = reader.responses();
      assertThat(stored).extracting(r -> r.response().falls()).containsExactly(5, 10);
      assertThat(stored.get(0).cutIds()).containsExactly(1L, 2L, 3L, 4L, 5L);
      assertThat(reader.cut(5).orElseThrow().cut().response()).isEqualTo(Response.unknown());
      assertThat(reader.cut(6).orElseThrow().cut()).isEqualTo(cut(6, stored.get(0).response()));
      assertThat(reader.results(6).get(0).responseId()).contains(stored.get(0).response().id());
    }
  }
}
