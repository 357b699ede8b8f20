package snick.daemon.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.when;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import snick.daemon.HandRig;
import snick.daemon.HandTime;
import snick.phrase.Phrase;
import snick.port.PortAddress;
import snick.port.PortException;
import snick.port.Ports;
import snick.virtualrig.settings.Altered;
import snick.virtualrig.settings.DeviceSettings;
import snick.virtualrig.settings.RigSettings;

/** Rigs that are found by their own device ids, in time moved by hand. */
class RigFinderTest {
  private static final Path LEFT = Path.of("/dev/left");
  private static final Path RIGHT = Path.of("/dev/right");

  private final HandTime time = new HandTime();
  private final Ports ports = mock(Ports.class);
  private final Map<Path, HandRig> rigs = new LinkedHashMap<>();

  @BeforeEach
  void plugIn() throws IOException {
    rigs.put(LEFT, rig(0x51A0_0000_0000_0ABCL));
    rigs.put(RIGHT, rig(0x51A0_0000_0000_0DEFL));
    when(ports.resolve(any()))
        .thenThrow(
            new PortException(
                PortException.Reason.NOT_FOUND,
                Phrase.of("fault.said", "what", "no port fits; snick ports")));
    when(ports.candidates())
        .thenAnswer(asked -> rigs.keySet().stream().map(p -> new Ports.Candidate(p, "")).toList());
    when(ports.openLink(any()))
        .thenAnswer(asked -> rigs.get(Path.of(((PortAddress) asked.getArgument(0)).text())));
  }

  private HandRig rig(long deviceId) {
    return new HandRig(
        time, RigSettings.USUAL.with(Altered.withDeviceId(DeviceSettings.USUAL, deviceId)));
  }

  private RigFinder finder(String part) {
    return new RigFinder(ports, new PortAddress.SerialName(part), time);
  }

  private List<Integer> requests() {
    return rigs.values().stream().map(rig -> rig.requests).toList();
  }

  @Test
  void byPartOfItsOwnDeviceIdInEitherCase() throws IOException {
    assertThat(finder("0def").find(() -> {})).isEqualTo(new PortAddress.SerialDevice(RIGHT));
    assertThat(finder("0ABC").find(() -> {})).isEqualTo(new PortAddress.SerialDevice(LEFT));
  }

  @Test
  void aPartThatFitsTwoDeviceIdsIsRefusedWithBoth() {
    assertThatThrownBy(() -> finder("51a0").find(() -> {}))
        .isInstanceOf(PortException.class)
        .hasMessageContaining("fits 2 ports: /dev/left, /dev/right");
  }

  @Test
  void whoWasAskedInVainIsLeftAloneForAMinuteAndWhoComesAnewIsAsked() throws IOException {
    RigFinder finder = finder("777");

    assertThatThrownBy(() -> finder.find(() -> {})).hasMessageContaining("snick ports");
    List<Integer> once = requests();
    time.pass(50_000_000_000L);
    assertThatThrownBy(() -> finder.find(() -> {})).isInstanceOf(PortException.class);
    assertThat(requests()).isEqualTo(once);

    rigs.put(Path.of("/dev/third"), rig(0x777));
    assertThat(finder.find(() -> {}).text()).isEqualTo("/dev/third");
    assertThat(requests().subList(0, 2)).isEqualTo(once);

    time.pass(60_000_000_000L);
    assertThat(finder.find(() -> {}).text()).isEqualTo("/dev/third");
    assertThat(requests().get(0)).isGreaterThan(once.get(0));
  }
}
