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
import snick.virtualrig.Action;
import snick.virtualrig.Pacer;
import snick.virtualrig.RigSettings;
import snick.virtualrig.Script;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;

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
    try (ServedRig rig =
            new VirtualRig(RigSettings.USUAL, 12)
                .serve(
                    folder.resolve("rig"),
                    Pacer.of(System::nanoTime, SPEED),
                    VirtualRig.WhenFull.DROP,
                    truth -> {});
        Recorder recorder = start(rig, clock, cuts)) {
      for (Duration jump : List.of(Duration.ZERO, Duration.ofDays(400), Duration.ofDays(-800))) {
        clock.now = clock.now.plus(jump);
        int before = cuts.size();
        rig.perform(CUT).join();
        Instants.await("a cut", () -> cuts.size() == before + 1);
        AnnouncedCut cut = cuts.get(before);
        assertThat(Duration.between(cut.occurredAt(), clock.now)).isBetween(Duration.ZERO, SLACK);
        assertThat(cut.latencyNanos()).isNotNegative().isLessThan(SLACK.toNanos());
      }
      assertThat(recorder.state().faults()).isEmpty();
    }
    assertThat(cuts).extracting(AnnouncedCut::id).containsExactly(1L, 2L, 3L);
    assertThat(cuts).extracting(c -> c.cut().breakNanos().orElseThrow()).isSorted();
    Sound.demand(
        folder.resolve("data"),
        reader ->
            cuts.forEach(
                cut ->
                    assertThat(reader.summary(cut.id()).orElseThrow().occurredAt())
                        .isEqualTo(cut.occurredAt())));
  }

  private Recorder start(ServedRig rig, Clock clock, List<AnnouncedCut> cuts) throws Exception {
    return Recorder.start(
        new Recorder.Settings(
            List.of(PortAddress.parse(rig.port())),
            115_200,
            Pipeline.Settings.defaults(),
            folder.resolve("data"),
            folder.resolve("run"),
            OptionalInt.empty(),
            "test"),
        recording -> Scale.none(List.of("not calibrated")),
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
                u -> u.with(u.device().withStartMicros(lateMicros)),
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
