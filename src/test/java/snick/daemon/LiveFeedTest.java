package snick.daemon;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.when;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.daemon.link.RigInUseException;
import snick.port.LinkLostException;
import snick.port.PortAddress;
import snick.port.Ports;
import snick.sample.IgnoredSamples;
import snick.virtualrig.settings.RigSettings;

/** Samples for a person at the bench, in time moved by hand. */
class LiveFeedTest {
  private static final PortAddress PORT = new PortAddress.SerialDevice(Path.of("/dev/rig"));

  private final HandTime time = new HandTime();
  private final HandRig rig = new HandRig(time, RigSettings.USUAL);
  private final Ports ports = mock(Ports.class);
  @TempDir private Path locks;

  @BeforeEach
  void plugIn() throws IOException {
    when(ports.open(any())).thenReturn(rig);
  }

  private LiveFeed open() throws IOException, RigInUseException {
    return new LiveFeed(
        ports, PORT, locks, Pipeline.Settings.defaults(), new IgnoredSamples(), time);
  }

  private void turnUntil(LiveFeed feed, double seconds) throws IOException {
    while (time.seconds() < seconds) {
      assertThat(feed.turn()).isTrue();
    }
  }

  @Test
  void aRigIsAskedOnceASecondUntilItSaysWhoItIs() throws Exception {
    rig.become(HandRig.State.SILENT);
    time.at(5.5, () -> rig.become(HandRig.State.SENDING));
    try (LiveFeed feed = open()) {
      turnUntil(feed, 5);
      assertThat(rig.requests).isEqualTo(5);
      assertThat(feed.setting(1)).isEmpty();

      turnUntil(feed, 20);
      assertThat(feed.setting(1)).isPresent();
      assertThat(feed.stranger()).isEmpty();
      assertThat(rig.requests).isBetween(6, 7);
    }
    assertThat(rig.closed).isEqualTo(1);
  }

  @Test
  void theRigIsItsOwnWhileItIsOpen() throws Exception {
    LiveFeed first = open();
    assertThatThrownBy(this::open).isInstanceOf(RigInUseException.class);
    first.close();
    open().close();
  }

  @Test
  void aPulledCableIsAnError() throws Exception {
    time.at(3, () -> rig.become(HandRig.State.UNPLUGGED));
    try (LiveFeed feed = open()) {
      assertThatThrownBy(() -> turnUntil(feed, 10)).isInstanceOf(LinkLostException.class);
    }
  }
}
