package snick.daemon.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import snick.port.PortAddress;
import snick.port.PortException;
import snick.port.Ports;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.settings.Altered;
import snick.virtualrig.settings.DeviceSettings;
import snick.virtualrig.settings.RigSettings;

/** Two rigs on real pseudo-terminals, found by what a person knows of them. */
@EnabledOnOs({OS.LINUX, OS.MAC})
@Timeout(60)
class RigFinderIT {
  @TempDir private Path folder;
  private Path links;
  private ServedRig left;
  private ServedRig right;
  private Ports ports;

  @BeforeEach
  void plugIn() throws IOException {
    links = Files.createDirectory(folder.resolve("by-id"));
    left = serve("usb-bench_left-if00", 0x51A0_0000_0000_0ABCL);
    right = serve("usb-bench_right-if00", 0x51A0_0000_0000_0DEFL);
    ports = new Ports(115_200, links);
  }

  @AfterEach
  void unplug() {
    left.close();
    right.close();
  }

  private ServedRig serve(String name, long deviceId) throws IOException {
    RigSettings settings =
        RigSettings.USUAL.with(Altered.withDeviceId(DeviceSettings.USUAL, deviceId));
    return new VirtualRig(settings, 1)
        .serveOnPseudoTerminal(
            links.resolve(name),
            Pacer.of(System::nanoTime, 1),
            VirtualRig.WhenFull.DROP,
            Objects::requireNonNull);
  }

  private PortAddress find(String part) throws IOException {
    return new RigFinder(ports, new PortAddress.SerialName(part), HostTime.REAL).find(() -> {});
  }

  private PortAddress link(String name) {
    return new PortAddress.SerialDevice(links.resolve(name));
  }

  @Test
  void byPartOfTheNameOfItsLink() throws IOException {
    assertThat(find("RIGHT")).isEqualTo(link("usb-bench_right-if00"));
  }

  @Test
  void byPartOfItsOwnDeviceId() throws IOException {
    assertThat(find("0def")).isEqualTo(link("usb-bench_right-if00"));
  }

  @Test
  void aPartThatFitsTwoLinksIsRefusedWithBoth() {
    assertThatThrownBy(() -> find("bench"))
        .isInstanceOf(PortException.class)
        .hasMessageContaining("fits 2 ports")
        .hasMessageContaining("bench_left")
        .hasMessageContaining("bench_right");
  }
}
