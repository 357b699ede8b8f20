package snick.port;

import com.fazecast.jSerialComm.SerialPort;
import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import snick.phrase.Phrase;

/** Opens whatever an address names, and lists what could be opened. */
public final class Ports {
  private static final Path BY_ID = Path.of("/dev/serial/by-id");

  private final int bitsPerSecond;
  private final Path linksFolder;

  /**
   * Opens serial devices at {@code bitsPerSecond}, a standard rate; USB devices without a real UART
   * ignore it.
   */
  public Ports(int bitsPerSecond) {
    this(bitsPerSecond, BY_ID);
  }

  /** The same where the links with lasting names stand in {@code linksFolder}. */
  public Ports(int bitsPerSecond, Path linksFolder) {
    this.bitsPerSecond = bitsPerSecond;
    this.linksFolder = linksFolder;
  }

  /** One serial device that could be opened. */
  public record Candidate(Path path, String description) {}

  /**
   * Opens {@code address}.
   *
   * @throws PortException if it is not there, not unique, not permitted or in use
   */
  public ByteSource open(PortAddress address) throws IOException {
    if (address instanceof PortAddress.RecordedFile file) {
      return RecordedSource.open(file.path());
    }
    if (address instanceof PortAddress.StandardInput) {
      return RecordedSource.of(System.in);
    }
    return openLink(address);
  }

  /** Opens a live {@code address}. */
  public ByteLink openLink(PortAddress address) throws IOException {
    if (address instanceof PortAddress.Tcp tcp) {
      return TcpLink.open(tcp);
    }
    if (address instanceof PortAddress.SerialDevice device) {
      return SerialLink.open(device.path(), bitsPerSecond);
    }
    if (address instanceof PortAddress.SerialName name) {
      return openLink(resolve(name));
    }
    throw new IllegalArgumentException(address.text() + " is not a device");
  }

  /**
   * The name of {@code address} that stays when the device comes back under another number: its
   * link in {@code /dev/serial/by-id} if there is one, else the address itself.
   */
  public PortAddress stable(PortAddress address) throws IOException {
    if (!(address instanceof PortAddress.SerialDevice device)
        || Files.isSymbolicLink(device.path())) {
      return address;
    }
    for (Path link : links()) {
      if (Files.exists(link) && Files.isSameFile(link, device.path())) {
        return new PortAddress.SerialDevice(link);
      }
    }
    return address;
  }

  /**
   * The device whose link, path or description contains the name.
   *
   * @throws PortException if none does, or more than one
   */
  public PortAddress resolve(PortAddress.SerialName name) throws IOException {
    String wanted = name.part().toLowerCase(Locale.ROOT);
    List<String> matches =
        candidates().stream()
            .filter(
                c -> (c.path() + " " + c.description()).toLowerCase(Locale.ROOT).contains(wanted))
            .map(c -> c.path().toString())
            .toList();
    if (matches.isEmpty()) {
      throw new PortException(
          PortException.Reason.NOT_FOUND, Phrase.of("port.none_named", "part", name.part()));
    }
    if (matches.size() > 1) {
      throw PortException.ambiguous(name, matches);
    }
    return new PortAddress.SerialDevice(Path.of(matches.get(0)));
  }

  /** Serial devices here, links with stable names first and each device once. */
  public List<Candidate> candidates() throws IOException {
    List<Candidate> found = new ArrayList<>();
    for (Path link : links()) {
      found.add(new Candidate(link, link.getFileName().toString()));
    }
    SerialLibrary.load();
    OperatingSystem system = OperatingSystem.present();
    for (SerialPort port : SerialPort.getCommPorts()) {
      String name = nameOn(system, port.getSystemPortName(), port.getSystemPortPath());
      if (isForCalling(system, name) && !listed(found, Path.of(name))) {
        found.add(new Candidate(Path.of(name), port.getDescriptivePortName()));
      }
    }
    return found;
  }

  /**
   * What a person types: Windows has no folder of devices, and its path ({@code \\\\.\\COM3}) is no
   * path.
   */
  static String nameOn(OperatingSystem system, String name, String path) {
    return system == OperatingSystem.WINDOWS ? name : path;
  }

  /** On macOS each port has a second name, which waits for a carrier when it is opened. */
  static boolean isForCalling(OperatingSystem system, String name) {
    return system != OperatingSystem.MAC || !name.startsWith("/dev/tty.");
  }

  private static boolean listed(List<Candidate> found, Path path) throws IOException {
    for (Candidate candidate : found) {
      if (Files.exists(path)
          && Files.exists(candidate.path())
          && Files.isSameFile(candidate.path(), path)) {
        return true;
      }
    }
    return false;
  }

  private List<Path> links() throws IOException {
    List<Path> links = new ArrayList<>();
    if (Files.isDirectory(linksFolder)) {
      try (DirectoryStream<Path> entries = Files.newDirectoryStream(linksFolder)) {
        entries.forEach(links::add);
      }
    }
    links.sort(null);
    return links;
  }
}
