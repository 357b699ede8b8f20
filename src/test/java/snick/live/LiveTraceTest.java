package snick.live;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;
import snick.force.budget.Calibration;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;
import snick.view.TraceJson;

class LiveTraceTest {
  private final LiveTrace trace = new LiveTrace();
  private final Heard heard = new Heard();
  private final SampleSink sink = trace.before(heard);

  @Test
  void everythingIsPassedOn() {
    Gap gap = new Gap(Gap.Cause.LOST_SAMPLES, 1, 2, 1);
    sink.sample(1, 10);
    sink.overrange(2, Rail.LOW);
    sink.gap(gap);
    sink.end();
    assertThat(heard.text).isEqualTo("sample 1 10, LOW 2, LOST_SAMPLES, end, ");
  }

  @Test
  void givesWhatIsNewAndMarksGaps() {
    sink.sample(10, 1);
    sink.sample(20, 2);
    LiveTrace.Slice first = trace.since(0);
    sink.gap(new Gap(Gap.Cause.LOST_SAMPLES, 20, 40, 1));
    sink.sample(40, 4);
    LiveTrace.Slice second = trace.since(first.next());

    assertThat(first.size()).isEqualTo(2);
    assertThat(first.afterGap(1)).isFalse();
    assertThat(second.size()).isEqualTo(1);
    assertThat(second.deviceNanos(0)).isEqualTo(40);
    assertThat(second.counts(0)).isEqualTo(4);
    assertThat(second.afterGap(0)).isTrue();
    assertThat(trace.since(second.next()).size()).isZero();
  }

  @Test
  void oneWhoComesTooLateGetsWhatIsKept() {
    for (int i = 0; i < 3 * LiveTrace.KEPT; i++) {
      sink.sample(i, i);
    }
    LiveTrace.Slice slice = trace.since(5);
    assertThat(slice.size()).isEqualTo(LiveTrace.KEPT - 1);
    assertThat(slice.counts(slice.size() - 1)).isEqualTo(3 * LiveTrace.KEPT - 1);
  }

  @Test
  void givesTheLastSeconds() {
    for (int i = 0; i <= 100; i++) {
      sink.sample(i * 1_000_000_000L, i);
    }
    LiveTrace.Slice slice = trace.lastNanos(10_000_000_000L);
    assertThat(slice.size()).isEqualTo(11);
    assertThat(slice.counts(0)).isEqualTo(90);
  }

  @Test
  void aReaderNeverSeesATornSample() throws Exception {
    AtomicReference<String> torn = new AtomicReference<>("");
    Thread reader =
        new Thread(
            () -> {
              long from = 0;
              while (from < 4_000_000 && torn.get().isEmpty()) {
                LiveTrace.Slice slice = trace.since(from);
                for (int i = 0; i < slice.size(); i++) {
                  if (slice.deviceNanos(i) != slice.counts(i)) {
                    torn.set(slice.deviceNanos(i) + " with " + slice.counts(i));
                  }
                }
                from = slice.next();
              }
            });
    reader.start();
    for (int i = 0; i < 4_000_000; i++) {
      sink.sample(i, i);
    }
    reader.join();
    assertThat(torn.get()).isEmpty();
  }

  @Test
  void pointsAreForcesInTheLoadingDirection() throws IOException {
    sink.sample(0, 1000);
    sink.sample(12_500_000, 1000 - 4373);
    Calibration calibration = Calibration.countsPerGramForce(437.25, Instant.EPOCH);

    Map<String, Object> points =
        JSON.std.mapFrom(
            new TraceJson(0, 1000, -1, Optional.of(calibration)).of(trace.since(0), 100));

    assertThat(points).containsEntry("unit", "gf");
    assertThat(list(points, "v")).endsWith(10.0);
    assertThat(list(points, "t")).endsWith(0.0125);
  }

  @Test
  void withoutACalibrationPointsAreCountsAboveRest() throws IOException {
    sink.sample(0, 1500);
    Map<String, Object> points =
        JSON.std.mapFrom(new TraceJson(1, 1000, 1, Optional.empty()).of(trace.since(0), 100));
    assertThat(points).containsEntry("unit", "counts").containsEntry("rig", 1);
    assertThat(list(points, "v")).endsWith(500.0);
  }

  @Test
  void ofManySamplesThePeakAndTheGapStay() throws IOException {
    for (int i = 0; i < 5000; i++) {
      if (i == 2500) {
        sink.gap(new Gap(Gap.Cause.LOST_SAMPLES, 0, 1, 1));
      }
      sink.sample(i * 1_000_000L, i == 1234 ? 99_999 : 0);
    }
    Map<String, Object> points =
        JSON.std.mapFrom(new TraceJson(0, 0, 1, Optional.empty()).of(trace.since(0), 100));
    List<Object> values = list(points, "v");
    assertThat(values).hasSizeLessThanOrEqualTo(104).contains(99_999.0);
    assertThat(values.subList(10, values.size())).containsNull();
  }

  @SuppressWarnings("unchecked")
  private static List<Object> list(Map<String, Object> object, String name) {
    return (List<Object>) object.get(name);
  }

  private static final class Heard implements SampleSink {
    private String text = "";

    @Override
    public void sample(long deviceNanos, int counts) {
      if (deviceNanos == 1) {
        text += "sample " + deviceNanos + " " + counts + ", ";
      }
    }

    @Override
    public void overrange(long deviceNanos, Rail rail) {
      text += rail + " " + deviceNanos + ", ";
    }

    @Override
    public void gap(Gap gap) {
      text += gap.cause() + ", ";
    }

    @Override
    public void end() {
      text += "end, ";
    }
  }
}
