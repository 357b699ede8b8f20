package snick.virtualrig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import snick.frame.message.Status;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.RigSettings;
import snick.virtualrig.signal.SignalModel;

class FaultTest {
  private final Heard host = new Heard();
  private final Rendering rig =
      new Rendering(new VirtualRig(RigSettings.USUAL, 6), host, cut -> {});

  @BeforeEach
  void settle() {
    rig.play(4);
  }

  @Test
  void aConverterInOverrangeStandsAtAnEnd() {
    rig.inject(new Fault.Overrange(0.1, true));
    rig.play(20);
    rig.inject(new Fault.Overrange(0.1, false));
    rig.play(20);
    assertThat(host.counts).contains(0x7FFFFF, -0x800000);
    assertThat(host.counts.get(host.counts.size() - 1)).isBetween(-0x7FFFFF, 0x7FFFFE);
  }

  @Test
  void aConverterThatIsStuckRepeatsItself() {
    rig.play(21);
    int before = host.counts.size();
    rig.inject(new Fault.Stuck(0.1));
    rig.play(40);
    assertThat(host.counts.subList(before, before + 7)).containsOnly(host.counts.get(before - 1));
    List<Integer> free = host.counts.subList(before + 10, host.counts.size());
    assertThat(free.stream().distinct().count()).isGreaterThan(5);
  }

  @Test
  void bitErrorsSpoilFramesAndEndWhenToldTo() {
    rig.inject(new Fault.BitErrors(1e-3));
    rig.play(4000);
    long bad =
        host.decoder.tally().thrownAway().badChecks()
            + host.decoder.tally().thrownAway().malformed();
    assertThat(bad).isBetween(100L, 500L);
    rig.inject(new Fault.BitErrors(0));
    rig.play(8);
    int good = host.counts.size();
    rig.play(402);
    assertThat(host.counts).hasSize(good + 402);
  }

  @Test
  void bitErrorsComeAtTheRateAskedFor() {
    FaultyLine line = new FaultyLine(SignalModel.stream(1, 4));
    line.goWrong(new Fault.BitErrors(0.01), 0);
    long turned = 0;
    for (int i = 0; i < 1000; i++) {
      assertThat(line.carry(new byte[100], 100, 0)).isEqualTo(100);
      for (int k = 0; k < 100; k++) {
        turned += Integer.bitCount(line.arrived()[k] & 0xFF);
      }
    }
    assertThat(turned / 800_000.0).as("0.01, standard error 0.00011").isCloseTo(0.01, within(5e-4));
  }

  @Test
  void lostBytesAreMissing() {
    FaultyLine line = new FaultyLine(SignalModel.stream(1, 4));
    line.goWrong(new Fault.LostBytes(0.2), 0);
    long kept = 0;
    for (int i = 0; i < 1000; i++) {
      kept += line.carry(new byte[100], 100, 0);
    }
    assertThat(kept / 100_000.0).as("0.8, standard error 0.0013").isCloseTo(0.8, within(6e-3));
  }

  @Test
  void silenceLeavesAHoleInTheSequence() {
    rig.play(81);
    rig.inject(new Fault.Silence(1));
    rig.play(159);
    assertThat(host.sequences).hasSize(162).doesNotHaveDuplicates().contains(80L, 159L, 239L);
    assertThat(host.sequences).doesNotContain(81L, 158L);
    assertThat(rig.sent().samples()).isEqualTo(240);
  }

  @Test
  void babbleIsNoFrame() {
    rig.inject(new Fault.Babble(2));
    rig.play(160);
    assertThat(host.counts.size()).isLessThan(8);
    rig.play(400);
    assertThat(host.sequences).contains(300L, 400L, 500L);
  }

  @Test
  void resetBeginsNumbersAndClockAnew() {
    rig.play(99);
    rig.inject(new Fault.Reset(Status.ResetCause.WATCHDOG, false));
    rig.play(100);
    assertThat(host.hellos).hasSize(2);
    assertThat(host.sequences.subList(99, 103)).containsExactly(0L, 1L, 2L, 3L);
    assertThat(host.statuses.get(host.statuses.size() - 1).resetCause())
        .isEqualTo(Status.ResetCause.WATCHDOG);
    assertThat(host.micros.get(2 * 33)).isCloseTo(62_500L, within(1L));
  }

  @Test
  void resetMidFrameLeavesHalfAFrame() {
    rig.play(98);
    rig.inject(new Fault.Reset(Status.ResetCause.BROWN_OUT, true));
    rig.play(4 + 9);
    assertThat(
            host.decoder.tally().thrownAway().malformed()
                + host.decoder.tally().thrownAway().badChecks())
        .isEqualTo(1);
    assertThat(host.hellos).as("a delimiter goes before hello").hasSize(2);
    assertThat(host.counts).hasSize(96 + 9);
  }

  @Test
  void anotherDeviceSaysSo() {
    rig.play(10);
    rig.inject(new Fault.AnotherDevice(0xABCL));
    assertThat(host.hellos.get(1).deviceId()).isEqualTo(0xABCL);
  }

  @Test
  void newerFirmwareSaysSo() {
    rig.play(10);
    rig.inject(new Fault.NewerProtocol(2));
    rig.play(10);
    assertThat(host.raw.size()).isPositive();
    assertThat(host.hellos.get(host.hellos.size() - 1).protocolVersion()).isEqualTo(2);
  }

  @Test
  void scriptedFaultsHappenInTheirPlace() {
    rig.play(
        new FaultyScript(Script.of(new Action.Rest(1)))
            .thenGoWrong(new Fault.Reset(Status.ResetCause.EXTERNAL, false))
            .then(new Action.Rest(1)));
    assertThat(host.hellos).hasSize(2);
    assertThat(host.sequences.indexOf(0L)).isZero();
    assertThat(host.sequences.lastIndexOf(0L)).isCloseTo(80, within(4));
  }
}
