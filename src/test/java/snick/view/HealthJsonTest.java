package snick.view;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import snick.live.BenchState;
import snick.live.RigState;
import snick.phrase.Words;
import snick.view.bench.RigMetrics;

/** Health as monitoring reads it. */
class HealthJsonTest {
  private static Map<?, ?> rig(RigState rig) throws IOException {
    BenchState state = new BenchState(Instant.EPOCH, List.of(rig), true, 0, List.of());
    return (Map<?, ?>)
        ((List<?>) JSON.std.mapFrom(HealthJson.of(state, Words.english())).get("rigs")).get(0);
  }

  @Test
  void nothingIsSaidOfARigThatWasNeverSeen() throws IOException {
    RigState never = RigState.opening(0, "/dev/ttyACM0");
    assertThat(rig(never).get("link")).isEqualTo("opening");
    assertThat(rig(never).containsKey("rate_hz")).isFalse();
    assertThat(rig(never).containsKey("noise_counts")).isFalse();
    String metrics =
        new RigMetrics(
                1, () -> new BenchState(Instant.EPOCH, List.of(never), true, 0, List.of()), "test")
            .scrape();
    assertThat(metrics).contains("snick_noise_counts{rig=\"0\"} NaN");
  }

  @Test
  void whatIsKnownIsSaid() throws IOException {
    Map<?, ?> seen = rig(TestBench.state().rigs().get(0));
    assertThat(seen.get("rate_hz")).isEqualTo(80.0);
    assertThat(seen.get("noise_counts")).isEqualTo(65.0);
  }
}
