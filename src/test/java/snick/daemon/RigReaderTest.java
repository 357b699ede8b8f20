package snick.daemon;

import static org.assertj.core.api.Assertions.assertThat;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.when;
import static org.mockito.Mockito.withSettings;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import snick.cut.response.Response;
import snick.daemon.link.RigOpening;
import snick.daemon.link.WhenAbsent;
import snick.frame.message.Status;
import snick.live.Fact;
import snick.live.RigState;
import snick.phrase.Phrase;
import snick.port.PortAddress;
import snick.port.PortException;
import snick.port.Ports;
import snick.virtualrig.Fault;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.RigSettings;

/** A rig that is silent, pulled out, garbled or late, in time moved by hand. */
class RigReaderTest {
  private static final PortAddress PORT = new PortAddress.SerialDevice(Path.of("/dev/rig"));

  private final HandTime time = new HandTime();
  private final HandRig rig = new HandRig(time, RigSettings.USUAL);
  private final Ports ports = mock(Ports.class, withSettings().stubOnly());
  private final BlockingQueue<Work> queue = new ArrayBlockingQueue<>(64);
  private final FaultLog faults = new FaultLog(time);
  private final List<String> said = new ArrayList<>();
  private final List<String> linksSeen = new ArrayList<>();
  private RigReader reader;

  @BeforeEach
  void plugIn() throws IOException {
    when(ports.stable(any())).thenReturn(PORT);
    when(ports.open(any()))
        .thenAnswer(
            asked -> {
              if (!rig.plugged()) {
                throw new PortException(
                    PortException.Reason.NOT_FOUND,
                    Phrase.of("fault.said", "what", "nothing is there"));
              }
              return rig;
            });
  }

  private void readUntil(double seconds, WhenAbsent absent) {
    reader =
        new RigReader(
            0,
            new RigOpening(PORT, ports, absent, time),
            Pipeline.Settings.defaults(),
            new Surroundings(
                queue, time, time, faults, line -> said.add(time.seconds() + " s: " + line)),
            UnaryOperator.identity(),
            Response::unknown);
    for (double at = 0.05; at < seconds; at += 0.1) {
      double moment = at;
      time.at(moment, () -> see(moment));
    }
    time.at(seconds, reader::stop);
    reader.run();
  }

  private void see(double seconds) {
    String now = reader.state().link().name();
    if (linksSeen.isEmpty() || !last(linksSeen).startsWith(now)) {
      linksSeen.add(now + " " + Math.round(seconds * 10) / 10.0);
    }
  }

  private static String last(List<String> lines) {
    return lines.get(lines.size() - 1);
  }

  private List<String> links() {
    return linksSeen.stream().map(line -> line.replaceFirst(" .*", "")).toList();
  }

  private List<String> faultKinds() {
    return faults.facts().stream().map(Fact::kind).toList();
  }

  @Test
  void silenceIsSaidOnceAfterThreeSecondsAndEndsByItself() {
    time.at(10, () -> rig.become(HandRig.State.SILENT));
    time.at(30, () -> rig.become(HandRig.State.SENDING));

    readUntil(40, WhenAbsent.REFUSED);

    assertThat(links()).containsExactly("AWAITING_HELLO", "RECORDING", "SILENT", "RECORDING");
    assertThat(linksSeen.get(2)).matches("SILENT 13\\.[0-3]");
    assertThat(said).singleElement().asString().contains("is silent");
    assertThat(faultKinds()).containsExactly("silence");
  }

  @Test
  void aPulledCableIsTriedForEverAndTheRigTakenUpAgain() {
    time.at(10, () -> rig.become(HandRig.State.UNPLUGGED));
    time.at(600, () -> rig.become(HandRig.State.SENDING));

    readUntil(610, WhenAbsent.REFUSED);

    assertThat(links()).contains("LOST").endsWith("RECORDING");
    assertThat(said).hasSize(2);
    assertThat(said.get(0)).contains("the cable is out; waiting for it to come back");
    assertThat(said.get(1)).contains("/dev/rig is back");
    assertThat(rig.closed).isEqualTo(2);
    assertThat(reader.refusal()).isEmpty();
    assertThat(queue.stream().filter(Work.StreamBegan.class::isInstance)).hasSize(1);
  }

  @Test
  void bytesWithoutReadingsAreSaidAfterThreeSeconds() {
    rig.become(HandRig.State.NOISE);

    readUntil(20, WhenAbsent.REFUSED);

    assertThat(links()).containsExactly("AWAITING_HELLO");
    assertThat(faultKinds()).contains("not understood");
    assertThat(said).singleElement().asString().matches("3\\.[0-9]* s: .*");
    assertThat(rig.requests).as("asked who it is, once a second").isBetween(19, 21);
  }

  @Test
  void aRigThatPrintsTextIsKnownByItsPort() {
    rig.become(HandRig.State.TEXT);

    readUntil(20, WhenAbsent.REFUSED);

    assertThat(reader.state().hello()).isEmpty();
    assertThat(reader.state().device()).contains("text:/dev/rig");
    assertThat(queue)
        .anyMatch(
            work ->
                work instanceof Work.StreamBegan began
                    && began.recording().deviceId().equals("text:/dev/rig"));
  }

  @Test
  void aRigThatIsNotThereIsRefusedOrAwaited() {
    rig.become(HandRig.State.UNPLUGGED);

    readUntil(10, WhenAbsent.REFUSED);

    assertThat(reader.refusal()).contains("nothing is there");
    assertThat(reader.state().link()).isEqualTo(RigState.Link.ENDED);
    assertThat(time.seconds()).isZero();
  }

  @Test
  void aRigThatComesLateIsAwaitedAndSaidOnce() {
    rig.become(HandRig.State.UNPLUGGED);
    time.at(600, () -> rig.become(HandRig.State.SENDING));

    readUntil(605, WhenAbsent.AWAITED);

    assertThat(links()).startsWith("AWAITING_RIG").endsWith("RECORDING");
    assertThat(said).hasSize(2);
    assertThat(said.get(0)).contains("waiting for the rig: nothing is there");
    assertThat(said.get(1)).contains("/dev/rig is there");
  }

  @Test
  void aCutIsHandedOnWithTheHostTimeOfItsBreak() {
    rig.play(Script.of(new Action.Rest(3), Action.Cut.ofGramForce(200, 100), new Action.Rest(3)));

    readUntil(20, WhenAbsent.REFUSED);

    Work.CutFinished finished =
        queue.stream()
            .filter(Work.CutFinished.class::isInstance)
            .map(Work.CutFinished.class::cast)
            .findFirst()
            .orElseThrow();
    assertThat(finished.occurredAt()).isBefore(time.instant());
    assertThat(finished.cut().breakNanos()).isPresent();
  }

  @Test
  void theClocksAreComparedOnceAMinute() {
    readUntil(250, WhenAbsent.REFUSED);

    assertThat(queue.stream().filter(Work.ClockFitted.class::isInstance)).hasSize(4);
  }

  @Test
  void aDeviceThatBeginsAgainIsAFaultAndNoNewRecording() {
    time.at(10, () -> rig.goWrong(new Fault.Reset(Status.ResetCause.WATCHDOG, false)));

    readUntil(20, WhenAbsent.REFUSED);

    assertThat(faultKinds()).containsExactly("device restarted");
    assertThat(queue.stream().filter(Work.StreamBegan.class::isInstance)).hasSize(1);
  }
}
