package snick.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import snick.frame.StreamDecoder;
import snick.frame.binary.DeviceFrames;
import snick.frame.binary.HostFrames;
import snick.frame.message.Answer;
import snick.frame.message.Hello;
import snick.frame.message.HostCommand;
import snick.frame.message.MessageType;
import snick.frame.message.SampleBatch;
import snick.frame.message.Status;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.RigSettings;

/**
 * The firmware as it runs on the board, in simavr, heard by the recorder's own port and decoder.
 */
@NeedsTools({Tool.GCC, Tool.MAKE, Tool.AVR_GCC, Tool.SIMAVR})
@Timeout(120)
class EmulatedFirmwareIT {
  private static final String[] FLAT_OUT = {"--id", EmulatedBoard.ID, "--wait", "--speed", "0"};
  private static final int SETTLING = 4;

  /** What the emulated converter gives while it settles. */
  private static final int UNSETTLED = 0x155555;

  @TempDir private Path folder;

  @BeforeAll
  static void build() throws Exception {
    Make.REFERENCE.run("all", "emulator");
  }

  private EmulatedBoard board(List<String> script, String... options) throws IOException {
    return EmulatedBoard.start(Make.REFERENCE, folder, script, options);
  }

  private static List<Integer> codes(int number, long seed) {
    Random random = new Random(seed);
    return random.ints(number, -(1 << 23), 1 << 23).boxed().toList();
  }

  private static List<String> lines(List<Integer> codes) {
    return codes.stream().map(String::valueOf).toList();
  }

  @Test
  void everyCodeOfTheScriptComesThrough() throws Exception {
    List<Integer> script = new ArrayList<>(List.of(-(1 << 23), (1 << 23) - 1, 0, -1, 1));
    script.addAll(codes(3_000, 1));
    try (EmulatedBoard board = board(lines(script), FLAT_OUT);
        Host host = Host.open(board.link())) {
      host.readUntil(() -> host.counts.size() >= script.size());
      assertThat(host.counts.subList(0, script.size())).isEqualTo(script);
      assertThat(host.sequences)
          .isEqualTo(LongStream.range(0, host.sequences.size()).boxed().toList());
      assertThat(host.hellos)
          .containsExactly(
              new Hello(1, 0x00A1B2C3D4E5F607L, "reference 1.0", 24, 128, 80_000, 19_531_250));
      assertThat(host.tally().thrownAway().bytes()).isZero();
      assertThat(host.lastStatus().droppedSamples()).isZero();
      assertThat(host.lastStatus().overrangeSamples()).isEqualTo(2);
      EmulatedBoard.Summary summary = board.stop();
      System.out.println("Firmware in the emulator: " + summary);
      assertThat(summary.lostBytes()).isZero();
      assertThat(summary.stackBytes()).isBetween(20L, 256L);
    }
  }

  @Test
  void stampsAreTakenAtDataReady() throws Exception {
    try (EmulatedBoard board = board(lines(codes(600, 2)), FLAT_OUT);
        Host host = Host.open(board.link())) {
      host.readUntil(() -> host.counts.size() >= 600);
      assertThat(host.spansMicros).allSatisfy(span -> assertThat(span).isBetween(24_998L, 25_002L));
      long batches = host.firstMicros.size() - 1L;
      assertThat(host.firstMicros.get((int) batches) - host.firstMicros.get(0))
          .isBetween(batches * 37_500 - 2, batches * 37_500 + 2);
    }
  }

  /** The same counts come whether the model's firmware twin sends them or the real firmware. */
  @Test
  void sendsWhatTheVirtualRigsTwinSends() throws Exception {
    List<Integer> fromTwin = new ArrayList<>();
    StreamDecoder decoder = StreamDecoder.ofAnyForm(StreamDecoder.Start.AT_BEGINNING);
    Counting counting = new Counting(fromTwin);
    new VirtualRig(RigSettings.USUAL, 4)
        .render(
            Script.of(
                new Action.Rest(2),
                Action.Cut.ofGramForce(120, 60),
                new Action.Rest(2),
                Action.Cut.ofGramForce(180, 90).withDips(2),
                new Action.Rest(2)),
            (nanos, bytes, length) -> decoder.accept(bytes, 0, length, counting),
            truth -> {});
    assertThat(fromTwin).hasSizeGreaterThan(500);
    try (EmulatedBoard board = board(lines(fromTwin), FLAT_OUT);
        Host host = Host.open(board.link())) {
      host.readUntil(() -> host.counts.size() >= fromTwin.size());
      assertThat(host.counts.subList(0, fromTwin.size())).isEqualTo(fromTwin);
    }
  }

  private static final class Counting extends SilentSink {
    private final List<Integer> counts;

    Counting(List<Integer> counts) {
      this.counts = counts;
    }

    @Override
    public void samples(SampleBatch batch) {
      IntStream.range(0, batch.size()).forEach(i -> counts.add(batch.counts(i)));
    }
  }

  @Test
  void changedGainIsRightAfterTheHole() throws Exception {
    List<Integer> script = codes(2_000, 3);
    try (EmulatedBoard board = board(lines(script), FLAT_OUT);
        Host host = Host.open(board.link())) {
      host.readUntil(() -> host.counts.size() >= 30);
      host.send(new HostFrames().encode(new HostCommand(MessageType.SET_GAIN, 5, 64)));
      host.readUntil(() -> !holes(host.sequences).isEmpty());
      int before = indexAfterHole(host.sequences);
      host.readUntil(() -> host.counts.size() >= before + 30);
      assertThat(host.answers).extracting(Answer::value).containsExactly(64L);
      assertThat(host.hellos).extracting(Hello::gain).containsExactly(128, 64);
      long hole = host.sequences.get(before) - host.sequences.get(before - 1) - 1;
      assertThat(hole).as("the reading under way, and %d more", SETTLING).isEqualTo(SETTLING + 1);
      for (int i = before; i < before + 30; i++) {
        int scriptAt = host.sequences.get(i).intValue() - SETTLING;
        double half = script.get(scriptAt) / 2.0;
        assertThat((double) host.counts.get(i)).isBetween(half - 0.5, half + 0.5);
      }
      assertThat(host.counts).doesNotContain(UNSETTLED);
    }
  }

  @Test
  void lostConverterIsSaidAndFoundAgain() throws Exception {
    List<String> script = new ArrayList<>(lines(codes(100, 4)));
    script.add("unplug 200");
    script.addAll(lines(codes(100, 5)));
    script.add("short 200");
    script.addAll(lines(codes(400, 6)));
    try (EmulatedBoard board = board(script, FLAT_OUT);
        Host host = Host.open(board.link())) {
      host.readUntil(() -> host.counts.size() >= 600);
      List<Integer> all = new ArrayList<>(codes(100, 4));
      all.addAll(codes(100, 5));
      all.addAll(codes(400, 6));
      assertThat(host.counts.subList(0, 600)).isEqualTo(all);
      assertThat(holes(host.sequences)).isEqualTo(List.of(4L, 4L));
      assertThat(host.statuses)
          .extracting(Status::state)
          .contains(Status.State.CONVERTER_LOST, Status.State.STREAMING)
          .filteredOn(Status.State.CONVERTER_LOST::equals)
          .hasSizeBetween(4, 6);
      assertThat(host.lastStatus().state()).isEqualTo(Status.State.STREAMING);
      assertThat(host.lastStatus().droppedSamples()).isEqualTo(8);
    }
  }

  private static List<Long> holes(List<Long> sequences) {
    return IntStream.range(1, sequences.size())
        .mapToObj(i -> sequences.get(i) - sequences.get(i - 1) - 1)
        .filter(missing -> missing != 0)
        .toList();
  }

  private static int indexAfterHole(List<Long> sequences) {
    int at = 1;
    while (sequences.get(at) == sequences.get(at - 1) + 1) {
      at++;
    }
    return at;
  }

  @Test
  void stuckConverterIsSaidAndSent() throws Exception {
    List<String> script = new ArrayList<>(lines(codes(100, 7)));
    script.addAll(Collections.nCopies(300, "4711"));
    script.addAll(lines(codes(200, 8)));
    try (EmulatedBoard board = board(script, FLAT_OUT);
        Host host = Host.open(board.link())) {
      host.readUntil(() -> host.counts.size() >= 600);
      assertThat(host.counts.subList(100, 400)).containsOnly(4711);
      assertThat(host.statuses).extracting(Status::state).contains(Status.State.CONVERTER_STUCK);
      assertThat(host.lastStatus().state()).isEqualTo(Status.State.STREAMING);
    }
  }

  /** A brown-out in the middle of a frame, the reset pin, a hang that the watchdog ends. */
  @Test
  void everyResetIsSaidWithItsCause() throws Exception {
    List<String> script = new ArrayList<>(lines(codes(100, 9)));
    script.add("brown-out");
    script.addAll(lines(codes(100, 10)));
    script.add("external");
    script.addAll(lines(codes(100, 11)));
    script.add("hang");
    script.addAll(lines(codes(300, 12)));
    try (EmulatedBoard board = board(script, FLAT_OUT);
        Host host = Host.open(board.link())) {
      host.readUntil(() -> host.counts.size() >= 500);
      assertThat(host.hellos).hasSize(4).containsOnly(host.hellos.get(0));
      assertThat(host.statuses)
          .extracting(Status::resetCause)
          .containsSubsequence(
              Status.ResetCause.POWER_ON,
              Status.ResetCause.BROWN_OUT,
              Status.ResetCause.EXTERNAL,
              Status.ResetCause.WATCHDOG);
      assertThat(host.sequences).filteredOn(sequence -> sequence == 0).hasSize(4);
      assertThat(host.tally().thrownAway().badChecks() + host.tally().thrownAway().malformed())
          .as("the frame that the brown-out cut in two, joined by nothing")
          .isEqualTo(1);
      assertThat(host.counts).doesNotContain(UNSETTLED);
      assertThat(board.stop().resets()).isEqualTo(3);
    }
  }

  @Test
  void clockWrapsInsideTheStream() throws Exception {
    List<String> script = new ArrayList<>(lines(codes(100, 13)));
    long nearTheWrap = (1L << 17) - 20;
    script.add("poke turns " + nearTheWrap);
    script.addAll(lines(codes(400, 14)));
    try (EmulatedBoard board = board(script, FLAT_OUT);
        Host host = Host.open(board.link())) {
      host.readUntil(() -> host.counts.size() >= 500);
      int wrap = 2;
      while (host.firstMicros.get(wrap) > host.firstMicros.get(wrap - 1)) {
        wrap++;
      }
      long step = host.firstMicros.get(wrap) + (1L << 32) - host.firstMicros.get(wrap - 1);
      assertThat(step).isBetween(37_498L, 37_502L);
      assertThat(host.spansMicros.subList(wrap - 3, wrap + 3))
          .allSatisfy(span -> assertThat(span).isBetween(24_998L, 25_002L));
      assertThat(holes(host.sequences)).isEmpty();
    }
  }

  @Test
  void hostThatStopsReadingFindsTheStreamAgain() throws Exception {
    List<Integer> script = codes(60_000, 15);
    try (EmulatedBoard board = board(lines(script), "--id", EmulatedBoard.ID, "--speed", "100");
        Host host = Host.open(board.link())) {
      host.readUntil(() -> host.counts.size() >= 300);
      board.awaitLine("losing bytes");
      int before = host.counts.size();
      host.readUntil(() -> !holes(host.sequences).isEmpty());
      int after = host.counts.size();
      host.readUntil(() -> host.counts.size() >= after + 300);
      assertThat(after).isGreaterThan(before);
      for (int i = 0; i < host.counts.size(); i++) {
        assertThat(host.counts.get(i)).isEqualTo(script.get(host.sequences.get(i).intValue()));
      }
      // A gap may begin and end between two frames: then it cuts none.
      long cutFrames = 2L * holes(host.sequences).size();
      assertThat(host.tally().thrownAway().bytes())
          .as("nothing is thrown away but the frames that a gap cuts")
          .isLessThanOrEqualTo(cutFrames * DeviceFrames.MAX_BYTES);
    }
  }

  @Test
  void drawsItsIdOnceAndKeepsIt() throws Exception {
    List<String> script = new ArrayList<>(lines(codes(60, 16)));
    script.add("brown-out");
    script.addAll(lines(codes(100, 17)));
    try (EmulatedBoard board = board(script, "--wait", "--speed", "0");
        Host host = Host.open(board.link())) {
      host.readUntil(() -> host.hellos.size() >= 2);
      assertThat(host.hellos.get(0)).isEqualTo(host.hellos.get(1));
      assertThat(host.hellos.get(0).deviceId()).isNotIn(0L, -1L);
    }
  }
}
