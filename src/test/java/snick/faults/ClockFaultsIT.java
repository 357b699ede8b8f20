package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cut.Cut;
import snick.daemon.AnnouncedCut;
import snick.daemon.Pipeline;
import snick.daemon.Recorder;
import snick.daemon.Scale;
import snick.port.PortAddress;
import snick.store.OlderStore;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.Altered;
import snick.virtualrig.settings.RigSettings;

/** The host's clock jumps, its time zone changes, the device's counter runs over. */
class ClockFaultsIT {
  private static final double SPEED = 10;
  private static final Instant NOON = Instant.parse("2026-05-04T12:00:00Z");
  private static final Duration SLACK = Duration.ofSeconds(30);
  private static final Script CUT =
      Script.of(new Action.Rest(3), Action.Cut.ofGramForce(100, 150), new Action.Rest(1));

  @TempDir Path folder;

  /** A wall clock that stands where it is put. */
  private static final class WallClock extends Clock {
    private volatile Instant now = NOON;

    @Override
    public Instant instant() {
      return now;
    }

    @Override
    public ZoneId getZone() {
      return ZoneOffset.UTC;
    }

    @Override
    public Clock withZone(ZoneId zone) {
      return this;
    }
  }

  /** Cuts are stored in the order in which they happened, each at the time that the clock told. */
  @Test
  void theWallClockJumpsBothWays() throws Exception {
    WallClock clock = new WallClock();
    List<AnnouncedCut> cuts = new CopyOnWriteArrayList<>();
    try (ServedRig one = rig(0);
        ServedRig other = rig(1);
        Recorder recorder = start(List.of(one, other), clock, cuts)) {
      for (Duration jump : List.of(Duration.ZERO, Duration.ofDays(400), Duration.ofDays(-800))) {
        clock.now = clock.now.plus(jump);
        int before = cuts.size();
        CompletableFuture.allOf(one.perform(CUT), other.perform(CUT)).join();
        Instants.await("a cut of each", () -> cuts.size() == before + 2);
        for (AnnouncedCut cut : cuts.subList(before, before + 2)) {
          assertThat(Duration.between(cut.stored().occurredAt(), clock.now))
              .isBetween(Duration.ZERO, SLACK);
          assertThat(cut.latencyNanos()).isNotNegative().isLessThan(SLACK.toNanos());
        }
      }
      assertThat(recorder.state().faults()).isEmpty();
    }
    assertThat(cuts).extracting(AnnouncedCut::id).containsExactly(1L, 2L, 3L, 4L, 5L, 6L);
    for (int rig : List.of(0, 1)) {
      assertThat(cuts)
          .filteredOn(cut -> cut.rig() == rig)
          .hasSize(3)
          .extracting(cut -> cut.cut().breakNanos().orElseThrow())
          .isSorted();
    }
    Sound.demand(
        folder.resolve("data"),
        reader ->
            cuts.forEach(
                cut ->
                    assertThat(reader.summary(cut.id()).orElseThrow().occurredAt())
                        .isEqualTo(cut.stored().occurredAt())));
  }

  private ServedRig rig(int number) throws Exception {
    RigSettings usual = RigSettings.USUAL;
    return new VirtualRig(
            usual.with(Altered.withDeviceId(usual.device(), usual.device().deviceId() + number)),
            12 + number)
        .serve(
            folder.resolve("rig-" + number),
            Pacer.of(System::nanoTime, SPEED),
            VirtualRig.WhenFull.DROP,
            truth -> {});
  }

  private Recorder start(List<ServedRig> rigs, Clock clock, List<AnnouncedCut> cuts)
      throws Exception {
    return Recorder.start(
        new Recorder.Settings(
            rigs.stream().map(rig -> PortAddress.parse(rig.port())).toList(),
            115_200,
            Pipeline.Settings.defaults(),
            folder.resolve("data"),
            folder.resolve("run"),
            OptionalInt.empty(),
            "test"),
        recording -> Scale.none(List.of()),
        new Recorder.Audience(cuts::add, word -> {}),
        clock);
  }

  /** What is stored and printed for programs does not depend on where the machine thinks it is. */
  @Test
  void theTimeZoneChangesNothingStored() throws Exception {
    Path data = folder.resolve("data");
    OlderStore.make(data, 3);
    List<List<String>> told = new ArrayList<>();
    for (String zone : List.of("UTC", "Pacific/Kiritimati", "America/St_Johns")) {
      try (Running list =
          Running.start(
              folder,
              List.of("-Duser.timezone=" + zone),
              "cuts",
              "list",
              "--json",
              "--data",
              data.toString())) {
        assertThat(list.over()).isZero();
        told.add(list.lines());
      }
    }
    assertThat(told.get(0)).hasSize(3);
    assertThat(told).allMatch(lines -> lines.equals(told.get(0)));
  }

  /** The device's 32-bit microsecond counter runs over in the middle of a loading. */
  @Test
  void theCounterRunsOverInACut() {
    List<Cut> usual = cuts(Streams.of(u -> u, CUT.actions().toArray(Action[]::new)));
    long lateMicros = (1L << 32) - 3_300_000;
    List<Cut> wrapped =
        cuts(
            Streams.of(
                u -> u.with(Altered.withStartMicros(u.device(), lateMicros)),
                CUT.actions().toArray(Action[]::new)));
    assertThat(usual).hasSize(1);
    assertThat(wrapped).isEqualTo(usual);
  }

  private static List<Cut> cuts(byte[] stream) {
    List<Cut> cuts = new ArrayList<>();
    Pipeline pipeline = new Pipeline(Pipeline.Settings.defaults(), cuts::add);
    pipeline.accept(stream, stream.length);
    pipeline.end();
    return cuts;
  }
}
