package snick.daemon;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import snick.port.PortAddress;
import snick.port.PortException;
import snick.port.Ports;

/** Finds the port of a rig that is named by part of a port's name, or of its own device id. */
final class RigFinder {
  private final Ports ports;

  RigFinder(Ports ports) {
    this.ports = ports;
  }

  /**
   * The port that {@code address} means. A name that fits no port's name is held against the device
   * ids of the rigs here, which are asked.
   *
   * @throws PortException if nothing fits, or more than one
   */
  PortAddress find(PortAddress address) throws IOException {
    if (!(address instanceof PortAddress.SerialName name)) {
      return address;
    }
    try {
      return ports.resolve(name);
    } catch (PortException e) {
      if (e.reason() != PortException.Reason.NOT_FOUND) {
        throw e;
      }
      return byDeviceId(name, e);
    }
  }

  private PortAddress byDeviceId(PortAddress.SerialName name, PortException notFound)
      throws IOException {
    String wanted = name.part().toLowerCase(Locale.ROOT);
    List<PortAddress> fitting = new ArrayList<>();
    for (Ports.Candidate candidate : ports.candidates()) {
      PortAddress there = new PortAddress.SerialDevice(candidate.path());
      if (answersAs(there, wanted)) {
        fitting.add(there);
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

  private boolean answersAs(PortAddress there, String wanted) throws IOException {
    try {
      return Introduction.of(ports, there)
          .hello()
          .filter(hello -> hello.deviceIdText().contains(wanted))
          .isPresent();
    } catch (PortException e) {
      return false;
    }
  }
}
