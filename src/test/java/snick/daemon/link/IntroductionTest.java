package snick.daemon.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.when;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import snick.daemon.HandRig;
import snick.daemon.HandTime;
import snick.port.PortAddress;
import snick.port.Ports;
import snick.virtualrig.settings.RigSettings;

class IntroductionTest {
  private final HandTime time = new HandTime();
  private final HandRig rig = new HandRig(time, RigSettings.USUAL);

  private Introduction asked() throws IOException {
    Ports ports = mock(Ports.class);
    when(ports.openLink(any())).thenReturn(rig);
    return Introduction.of(ports, new PortAddress.SerialDevice(Path.of("/dev/rig")), time);
  }

  @Test
  void aRigThatAnswersIsKnownAtOnce() throws IOException {
    assertThat(asked().hello()).isPresent();
    assertThat(time.seconds()).isLessThan(0.5);
    assertThat(rig.closed).isEqualTo(1);
  }

  @Test
  void aBoardThatRestartsWhenItsPortIsOpenedIsWaitedFor() throws IOException {
    rig.become(HandRig.State.SILENT);
    time.at(3, () -> rig.become(HandRig.State.SENDING));

    assertThat(asked().hello()).isPresent();
    assertThat(time.seconds()).isBetween(3.0, 3.5);
  }

  @Test
  void whoSaysNothingForFourSecondsIsLeft() throws IOException {
    rig.become(HandRig.State.SILENT);

    assertThat(asked().words()).isEqualTo("nothing that is understood");
    assertThat(time.seconds()).isBetween(4.0, 4.11);
    assertThat(rig.requests).as("asked once a second").isEqualTo(4);
  }
}
