package snick.cli.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributes;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import snick.port.PortAddress;

/** Owner, group and permissions of a serial device. */
final class PortHealth {
  private static final String EXPECTED = "read and write for you, nothing for others";

  private PortHealth() {}

  /** The lines for {@code port}; none if it is no device file. */
  static List<HealthLine> of(String port) {
    if (!(PortAddress.parse(port) instanceof PortAddress.SerialDevice device)
        || !Files.exists(device.path())) {
      return List.of();
    }
    try {
      return List.of(of(device.path().toRealPath()));
    } catch (IOException | UnsupportedOperationException e) {
      return List.of(
          HealthLine.warn(
              "port", e.toString(), EXPECTED, "the system does not say who may use the port", ""));
    }
  }

  private static HealthLine of(Path path) throws IOException {
    PosixFileAttributes file = Files.readAttributes(path, PosixFileAttributes.class);
    String measured =
        "%s %s %s:%s"
            .formatted(
                path,
                PosixFilePermissions.toString(file.permissions()),
                file.owner().getName(),
                file.group().getName());
    if (!Files.isReadable(path) || !Files.isWritable(path)) {
      return HealthLine.fail(
          "port",
          measured,
          EXPECTED,
          "you may not use the port",
          "join the group: sudo usermod -aG "
              + file.group().getName()
              + " $USER, then log in again");
    }
    if (file.permissions().contains(PosixFilePermission.OTHERS_WRITE)
        || file.permissions().contains(PosixFilePermission.OTHERS_READ)) {
      return HealthLine.warn(
          "port",
          measured,
          EXPECTED,
          "every user of this machine may read from the rig or write to it",
          "give it to a group with a udev rule: MODE=\"0660\", GROUP=\"dialout\"");
    }
    return HealthLine.pass("port", measured, EXPECTED);
  }
}
