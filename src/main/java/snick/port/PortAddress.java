package snick.port;

import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.regex.Pattern;

/** Where bytes come from, as a person names it. */
public sealed interface PortAddress {
  /** Names of serial ports on Windows, in small letters too. */
  Pattern NUMBERED = Pattern.compile("(?i)COM[1-9]\\d{0,2}");

  /** The address as a person would type it. */
  String text();

  /** A serial device by its path, by a link to it, or by its name on Windows. */
  record SerialDevice(Path path) implements PortAddress {
    @Override
    public String text() {
      return path.toString();
    }
  }

  /**
   * A serial device by a unique part of its link in {@code /dev/serial/by-id}, or of its device id.
   */
  record SerialName(String part) implements PortAddress {
    @Override
    public String text() {
      return part;
    }
  }

  /** A rig behind a raw serial-to-network bridge. */
  record Tcp(String host, int portNumber) implements PortAddress {
    @Override
    public String text() {
      return "tcp://" + host + ":" + portNumber;
    }
  }

  /** Bytes in a file: a capture with arrival times, or plain bytes. */
  record RecordedFile(Path path) implements PortAddress {
    @Override
    public String text() {
      return path.toString();
    }
  }

  /** Standard input. */
  record StandardInput() implements PortAddress {
    @Override
    public String text() {
      return "-";
    }
  }

  /** Whether bytes come as they are made, so that a lost link is worth opening again. */
  default boolean live() {
    return !(this instanceof RecordedFile || this instanceof StandardInput);
  }

  /**
   * Reads an address: {@code -}, {@code tcp://host:port}, {@code COM} and a number, a path below
   * {@code /dev} or any existing special file, an existing regular file, else part of a name.
   *
   * @throws IllegalArgumentException if it is blank or cannot be a path, or if a network address
   *     has no host or no port from 1 to 65535
   */
  static PortAddress parse(String text) {
    if (text.isBlank()) {
      throw new IllegalArgumentException("a port without a name; list what is there: snick ports");
    }
    if (text.equals("-")) {
      return new StandardInput();
    }
    if (text.toLowerCase(Locale.ROOT).startsWith("tcp://")) {
      return tcp(text);
    }
    if (NUMBERED.matcher(text).matches()) {
      return new SerialDevice(Path.of(text.toUpperCase(Locale.ROOT)));
    }
    Path path = Path.of(text);
    if (Files.isRegularFile(path)) {
      return new RecordedFile(path);
    }
    return text.contains("/") || text.contains("\\")
        ? new SerialDevice(path)
        : new SerialName(text);
  }

  private static PortAddress tcp(String text) {
    URI address;
    try {
      address = URI.create(text);
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException(text + " is not tcp://HOST:PORT", e);
    }
    String host = address.getHost();
    int portNumber = address.getPort();
    if (host == null || portNumber < 1 || portNumber > 65535) {
      throw new IllegalArgumentException(
          text + " needs a host and a port from 1 to 65535, as in tcp://127.0.0.1:4000");
    }
    return new Tcp(host, portNumber);
  }
}
