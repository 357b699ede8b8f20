package snick.virtualrig.device;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import snick.frame.binary.HostFrames;
import snick.frame.message.Answer;
import snick.frame.message.Hello;
import snick.frame.message.HostCommand;
import snick.frame.message.MessageType;
import snick.frame.message.Status;
import snick.virtualrig.Fault;
import snick.virtualrig.Heard;
import snick.virtualrig.Rendering;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Sent;
import snick.virtualrig.script.KnifeScenario;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.Altered;
import snick.virtualrig.settings.DeviceSettings;
import snick.virtualrig.settings.RigSettings;
import snick.virtualrig.signal.SignalModel;

/** The conversation, decoded by the decoder that the recorder uses. */
class FirmwareTwinTest {
  private static final long ID = DeviceSettings.USUAL.deviceId();

  private static final int SETTLING = 4;

  private final Heard host = new Heard();

  private Rendering rig(DeviceSettings device) {
    Rendering rig =
        new Rendering(new VirtualRig(RigSettings.USUAL.with(device), 1), host, cut -> {});
    rig.play(SETTLING);
    return rig;
  }

  private static void tell(Rendering rig, HostCommand command) {
    rig.receive(new HostFrames().encode(command));
  }

  @Test
  void saysHelloFirstThenHowItIs() {
    rig(DeviceSettings.USUAL).play(1);
    assertThat(host.messages)
        .startsWith(new Hello(1, ID, "virtualrig 1", 24, 128, 80_000, 19_531_250));
    assertThat(host.messages.get(1)).isInstanceOf(Status.class);
    assertThat(host.statuses.get(0).resetCause()).isEqualTo(Status.ResetCause.POWER_ON);
  }

  @Test
  void numbersEverySampleAndSendsStatusOnceASecond() {
    rig(DeviceSettings.USUAL).play(801);
    assertThat(host.sequences).hasSize(801);
    for (int i = 0; i < 801; i++) {
      assertThat(host.sequences.get(i)).isEqualTo(i);
    }
    assertThat(host.statuses).hasSize(11);
    assertThat(host.decoder.tally().thrownAway().badChecks()).isZero();
    assertThat(host.decoder.tally().thrownAway().bytes()).isZero();
  }

  @Test
  void stampsSamplesOnItsOwnClock() {
    rig(Altered.withBatchSamples(Altered.withClockErrorPpm(DeviceSettings.USUAL, 100), 1))
        .play(801);
    long first = host.micros.get(0);
    long last = host.micros.get(host.micros.size() - 1);
    assertThat(last - first).isCloseTo(10_001_000, within(1L));
  }

  @Test
  void counterWraps() {
    rig(Altered.withBatchSamples(
            Altered.withClockErrorPpm(
                Altered.withStartMicros(DeviceSettings.USUAL, (1L << 32) - 1_000_000), 0),
            1))
        .play(160);
    assertThat(host.micros).contains((1L << 32) - 1_000_000 + 62_500).contains(12_500L);
    assertThat(host.micros).allMatch(micros -> micros >= 0 && micros < 1L << 32);
  }

  @Test
  void stopSendsWhatWaitsAndThenNoMore() {
    Rendering rig = rig(DeviceSettings.USUAL);
    rig.play(10);
    tell(rig, new HostCommand(MessageType.STOP, 1, 0));
    rig.play(100);
    assertThat(host.counts).hasSize(10);
    assertThat(host.answers.get(0).value()).as("number of the next sample").isEqualTo(10);
    assertThat(host.statuses.get(host.statuses.size() - 1).state()).isEqualTo(Status.State.IDLE);
  }

  @Test
  void startGoesOnWithTheNextNumber() {
    Rendering rig = rig(DeviceSettings.USUAL);
    rig.play(10);
    tell(rig, new HostCommand(MessageType.STOP, 1, 0));
    rig.play(100);
    tell(rig, new HostCommand(MessageType.START, 7, 0));
    rig.play(3);
    assertThat(host.sequences).hasSize(13).endsWith(10L, 11L, 12L);
    assertThat(host.answers.get(1).tag()).isEqualTo(7);
    assertThat(host.answers.get(1).value()).isEqualTo(10);
  }

  @Test
  void noSampleWaitsLongerThanTwentyFiveMillis() {
    rig(DeviceSettings.USUAL).play(9);
    assertThat(host.messages).filteredOn(Integer.class::isInstance).containsExactly(3, 3, 3);
  }

  @Test
  void saysHelloWhenAsked() {
    Rendering rig = rig(DeviceSettings.USUAL);
    rig.play(10);
    tell(rig, new HostCommand(MessageType.ASK_HELLO, 3, 0));
    assertThat(host.hellos).hasSize(2);
    assertThat(host.answers).extracting(Answer::tag).containsExactly(3);
  }

  @Test
  void echoesPingWithItsClock() {
    Rendering rig = rig(Altered.withClockErrorPpm(DeviceSettings.USUAL, 0));
    rig.play(76);
    tell(rig, new HostCommand(MessageType.PING, 9, 0xDEAD_BEEFL));
    assertThat(host.answers)
        .containsExactly(
            new Answer(
                MessageType.PING.code(), 9, Answer.Result.ACCEPTED, 0xDEAD_BEEFL, 1_000_000));
  }

  @Test
  void changesItsRateAndLeavesOutWhatHasNotSettled() {
    Rendering rig =
        rig(Altered.withClockErrorPpm(Altered.withBatchSamples(DeviceSettings.USUAL, 1), 0));
    rig.play(80);
    tell(rig, new HostCommand(MessageType.SET_RATE, 1, 319_000));
    int before = host.micros.size();
    rig.play(SETTLING + 2);
    assertThat(host.hellos.get(1).nominalRateMilliHertz()).isEqualTo(320_000);
    assertThat(host.answers.get(0).value()).isEqualTo(320_000);
    assertThat(host.sequences).endsWith(79L, 84L, 85L);
    assertThat(host.micros.get(before + 2) - host.micros.get(before)).isEqualTo(3_125);
    rig.play(320);
    assertThat(host.statuses.get(host.statuses.size() - 1).droppedSamples()).isEqualTo(4);
    assertThat(rig.sent().samples()).isEqualTo(host.counts.size() + rig.sent().droppedSamples());
  }

  @Test
  void aRateInForceChangesNothing() {
    Rendering rig = rig(DeviceSettings.USUAL);
    tell(rig, new HostCommand(MessageType.SET_RATE, 1, 80_000));
    assertThat(host.hellos).hasSize(1);
    assertThat(host.answers.get(0).result()).isEqualTo(Answer.Result.ACCEPTED);
  }

  @Test
  void refusesARateItDoesNotHaveAndKeepsTheOld() {
    Rendering rig = rig(DeviceSettings.USUAL);
    tell(rig, new HostCommand(MessageType.SET_RATE, 1, 100_000_000));
    tell(rig, new HostCommand(MessageType.SET_RATE, 2, 60_000));
    assertThat(host.answers)
        .allMatch(answer -> answer.result() == Answer.Result.OUT_OF_RANGE)
        .allMatch(answer -> answer.value() == 80_000);
  }

  @Test
  void changesItsGainAndRefusesAnother() {
    Rendering rig = rig(DeviceSettings.USUAL);
    tell(rig, new HostCommand(MessageType.SET_GAIN, 1, 64));
    tell(rig, new HostCommand(MessageType.SET_GAIN, 2, 65));
    assertThat(host.answers)
        .extracting(Answer::result)
        .containsExactly(Answer.Result.ACCEPTED, Answer.Result.OUT_OF_RANGE);
    assertThat(host.answers.get(1).value()).isEqualTo(64);
    assertThat(host.hellos.get(1).gain()).isEqualTo(64);
    assertThat(host.hellos.get(1).inputRangeNanoVolts()).isEqualTo(39_062_500);
  }

  @Test
  void saysThatTheConverterIsLostAndSettlesWhenItIsBack() {
    Rendering rig = rig(DeviceSettings.USUAL);
    rig.play(10);
    rig.inject(new Fault.ConverterLost(2));
    rig.play(80);
    tell(rig, new HostCommand(MessageType.SET_GAIN, 1, 64));
    rig.play(80);
    assertThat(host.counts).hasSize(10);
    assertThat(host.statuses.get(1).state()).isEqualTo(Status.State.CONVERTER_LOST);
    assertThat(host.answers.get(0).result()).isEqualTo(Answer.Result.NOT_POSSIBLE_NOW);
    rig.play(SETTLING + 5);
    assertThat(host.sequences)
        .as("no number while nothing was converted, %d while it settled", SETTLING)
        .hasSize(16)
        .contains(9L, 10L + SETTLING)
        .endsWith(15L + SETTLING)
        .doesNotContain(10L, 9L + SETTLING);
  }

  @Test
  void garbageFromTheHostIsNoCommand() {
    Rendering rig = rig(DeviceSettings.USUAL);
    rig.receive(new byte[] {0, 5, 4, 3, 2, 1, 0, 0, 'h', 'i', '\n'});
    rig.play(9);
    assertThat(host.answers).isEmpty();
    assertThat(host.counts).hasSize(9);
  }

  @Test
  void countsOverrangeInStatus() {
    Rendering rig = rig(DeviceSettings.USUAL);
    rig.inject(new Fault.Overrange(0.5, true));
    rig.play(161);
    assertThat(host.statuses.get(2).overrangeSamples()).isBetween(38L, 41L);
    assertThat(host.counts).contains(0x7FFFFF);
  }

  @Test
  void saysThatTheConverterIsStuck() {
    Rendering rig = rig(DeviceSettings.USUAL);
    rig.inject(new Fault.Stuck(3));
    rig.play(200);
    assertThat(host.statuses)
        .extracting(Status::state)
        .contains(Status.State.STREAMING, Status.State.CONVERTER_STUCK);
  }

  @Test
  void sameSeedGivesTheSameBytes() {
    Heard other = new Heard();
    Script script = KnifeScenario.stages().get(0).script();
    VirtualRig rig = new VirtualRig(RigSettings.USUAL, 99);
    Sent sent = rig.render(script, host, cut -> {});
    rig.render(script, other, cut -> {});
    assertThat(other.raw.toByteArray()).isEqualTo(host.raw.toByteArray());
    assertThat(sent.samples()).isEqualTo(host.counts.size());
    assertThat(sent.droppedSamples()).isZero();
    assertThat(sent.trueNanos()).isGreaterThanOrEqualTo(host.lastNanos);
  }

  @Test
  void readingsAreTheModelsOwn() {
    rig(DeviceSettings.USUAL).play(39);
    SignalModel model = new SignalModel(RigSettings.USUAL, 1, cut -> {});
    List<Integer> expected =
        IntStream.range(0, SETTLING + 39).mapToObj(ignored -> model.convert()).toList();
    assertThat(host.counts).isEqualTo(expected.subList(SETTLING, SETTLING + 39));
  }
}
