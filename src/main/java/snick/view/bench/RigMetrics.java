package snick.view.bench;

import io.micrometer.core.instrument.Counter;
import io.micrometer.core.instrument.FunctionCounter;
import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.Tag;
import io.micrometer.core.instrument.Tags;
import io.micrometer.core.instrument.Timer;
import io.micrometer.prometheusmetrics.PrometheusConfig;
import io.micrometer.prometheusmetrics.PrometheusMeterRegistry;
import java.time.Duration;
import java.util.function.Supplier;
import java.util.function.ToDoubleFunction;
import snick.live.BenchState;
import snick.live.RigState;

/**
 * The recorder's metrics in Prometheus text. Labels are the rig's number, an outcome or a result:
 * never text from a device or a person. Safe for any thread.
 */
public final class RigMetrics {
  /** What a gauge shows while there is nothing to show. */
  private static final double UNKNOWN = Double.NaN;

  private final PrometheusMeterRegistry registry =
      new PrometheusMeterRegistry(PrometheusConfig.DEFAULT);
  private final Supplier<BenchState> state;
  private final Timer latency;

  /**
   * Registers the meters.
   *
   * @param rigs number of rigs
   * @param state asked at every scrape
   * @param version version of this program
   */
  public RigMetrics(int rigs, Supplier<BenchState> state, String version) {
    this.state = state;
    registry.config().onMeterRegistrationFailed((id, why) -> refuse(id.getName(), why));
    latency =
        Timer.builder("snick.announcement.latency")
            .description("Time from reading the sample that ends an event to its commit")
            .serviceLevelObjectives(
                Duration.ofMillis(5),
                Duration.ofMillis(10),
                Duration.ofMillis(20),
                Duration.ofMillis(50),
                Duration.ofMillis(100),
                Duration.ofSeconds(1))
            .register(registry);
    Gauge.builder("snick.build.info", () -> 1)
        .description("Version of the program")
        .tags("version", version)
        .strongReference(true)
        .register(registry);
    gauge("snick.queue.depth", "Finished events that wait to be stored", BenchState::waiting);
    gauge("snick.storing", "1 if the store takes what it is given", s -> s.storing() ? 1 : 0);
    for (int rig = 0; rig < rigs; rig++) {
      registerRig(rig);
    }
  }

  private static void refuse(String name, String why) {
    throw new IllegalStateException("meter " + name + " could not be registered: " + why);
  }

  private void registerRig(int rig) {
    gauge(rig, "snick.loaded", "1 while the filament is loaded", r -> r.signal().loaded() ? 1 : 0);
    gauge(
        rig,
        "snick.connected",
        "1 if samples arrive",
        r -> r.link() == RigState.Link.RECORDING ? 1 : 0);
    gauge(rig, "snick.calibrated", "1 if cuts get a force", r -> r.signal().calibrated() ? 1 : 0);
    gauge(
        rig,
        "snick.sample.rate.hertz",
        "Samples per second, device clock",
        r -> r.clock().rateHertz().orElse(UNKNOWN));
    gauge(
        rig,
        "snick.noise.counts",
        "Standard deviation of a sample at rest",
        r -> r.signal().rest().map(RigState.Rest::noiseCounts).orElse(UNKNOWN));
    gauge(
        rig,
        "snick.zero.counts",
        "Reading at rest",
        r -> r.signal().rest().map(RigState.Rest::levelCounts).orElse(UNKNOWN));
    counter(rig, "snick.samples", "Samples read", Tags.empty(), r -> r.traffic().facts().samples());
    counter(
        rig,
        "snick.samples.lost",
        "Samples known to be lost",
        Tags.empty(),
        r -> r.traffic().facts().lost().samples());
    counter(
        rig,
        "snick.samples.overrange",
        "Samples at the end of the converter's range",
        Tags.empty(),
        r -> r.traffic().facts().overrange());
    counter(
        rig,
        "snick.device.restarts",
        "Restarts of the device",
        Tags.empty(),
        r -> r.traffic().facts().restarts());
    counter(
        rig,
        "snick.link.reopened",
        "Times the link was opened again",
        Tags.empty(),
        r -> r.traffic().facts().reopened());
    frames(rig, "good", r -> r.traffic().tally().good());
    frames(rig, "bad_check", r -> r.traffic().tally().thrownAway().badChecks());
    frames(
        rig,
        "malformed",
        r ->
            r.traffic().tally().thrownAway().malformed()
                + r.traffic().tally().thrownAway().tooLong());
    frames(rig, "unknown_type", r -> r.traffic().tally().thrownAway().unknownTypes());
  }

  private void frames(int rig, String result, ToDoubleFunction<RigState> value) {
    counter(rig, "snick.frames", "Frames or lines, by result", Tags.of("result", result), value);
  }

  private void gauge(String name, String description, ToDoubleFunction<BenchState> value) {
    Gauge.builder(name, state, s -> value.applyAsDouble(s.get()))
        .description(description)
        .strongReference(true)
        .register(registry);
  }

  private void gauge(int rig, String name, String description, ToDoubleFunction<RigState> value) {
    Gauge.builder(name, state, s -> value.applyAsDouble(s.get().rigs().get(rig)))
        .description(description)
        .tags(Tags.of(label(rig)))
        .strongReference(true)
        .register(registry);
  }

  private void counter(
      int rig, String name, String description, Tags tags, ToDoubleFunction<RigState> value) {
    FunctionCounter.builder(name, state, s -> value.applyAsDouble(s.get().rigs().get(rig)))
        .description(description)
        .tags(tags.and(label(rig)))
        .register(registry);
  }

  private static Tag label(int rig) {
    return Tag.of("rig", Integer.toString(rig));
  }

  /** One event was stored and announced. */
  public void announced(String outcome, long latencyNanos) {
    Counter.builder("snick.events")
        .description("Stored events, by outcome")
        .tags("outcome", outcome)
        .register(registry)
        .increment();
    latency.record(Duration.ofNanos(Math.max(0, latencyNanos)));
  }

  /** All metrics as Prometheus text. */
  public String scrape() {
    return registry.scrape();
  }
}
