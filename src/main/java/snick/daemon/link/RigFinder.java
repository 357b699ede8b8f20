package snick.daemon.link;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import snick.port.LinkLostException;
import snick.port.PortAddress;
import snick.port.PortException;
import snick.port.Ports;

/**
 * Finds the port of one rig that is named by part of a port's name, or of its own device id. One
 * thread. A port that was asked in vain is let alone for a while, for many boards begin anew when
 * they are opened; one that could not be opened is tried again after a growing pause.
 */
final class RigFinder {
  private final Ports ports;
  private final PortAddress address;
  private final HostTime time;
  private final AskedPorts asked = new AskedPorts();

  RigFinder(Ports ports, PortAddress address, HostTime time) {
    this.ports = ports;
    this.address = address;
    this.time = time;
  }

  /**
   * The port that the address means. A name that fits no port's name is held against the device ids
   * of the rigs here, which are asked, each for a few seconds.
   *
   * @param round is run before each is asked
   * @throws PortException if nothing fits, or more than one
   */
  PortAddress find(Runnable round) throws IOException {
    if (!(address instanceof PortAddress.SerialName name)) {
      return address;
    }
    try {
      return ports.resolve(name);
    } catch (PortException e) {
      if (e.reason() != PortException.Reason.NOT_FOUND) {
        throw e;
      }
      return byDeviceId(name, round, e);
    }
  }

  private PortAddress byDeviceId(
      PortAddress.SerialName name, Runnable round, PortException notFound) throws IOException {
    String wanted = name.part().toLowerCase(Locale.ROOT);
    List<PortAddress> fitting = new ArrayList<>();
    List<Path> here = ports.candidates().stream().map(Ports.Candidate::path).toList();
    asked.keep(here);
    for (Path path : here) {
      round.run();
      if (asked.due(path, time.monotonicNanos()) && answersAs(path, wanted)) {
        fitting.add(new PortAddress.SerialDevice(path));
      }
    }
    if (fitting.size() > 1) {
      throw PortException.ambiguous(name, fitting.stream().map(PortAddress::text).toList());
    }
    if (fitting.isEmpty()) {
      throw notFound;
    }
    return fitting.get(0);
  }

  private boolean answersAs(Path path, String wanted) throws IOException {
    try {
      boolean wantedOne =
          Introduction.of(ports, new PortAddress.SerialDevice(path), time)
              .hello()
              .filter(hello -> hello.deviceIdText().contains(wanted))
              .isPresent();
      if (!wantedOne) {
        asked.inVain(path, time.monotonicNanos());
      }
      return wantedOne;
    } catch (LinkLostException e) {
      asked.inVain(path, time.monotonicNanos());
      return false;
    } catch (PortException e) {
      asked.shut(path, time.monotonicNanos());
      return false;
    }
  }
}
