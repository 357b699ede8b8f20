package snick.firmware;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The library on a Cortex-M in qemu-system-arm; its line is a TCP socket. */
final class CortexBoard implements AutoCloseable {
  /** What QEMU prints once it listens: the port that the system chose. */
  private static final Pattern LISTENS = Pattern.compile("disconnected:tcp:([0-9.]+:\\d+)");

  private final Process process;
  private final String address;

  private CortexBoard(Process process, String address) {
    this.process = process;
    this.address = address;
  }

  /** Starts QEMU; the board's power comes on when somebody connects. */
  static CortexBoard start(Path firmware) throws IOException {
    Process process =
        new ProcessBuilder(
                List.of(
                    "qemu-system-arm",
                    "-M",
                    "mps2-an385",
                    "-nographic",
                    "-monitor",
                    "none",
                    "-serial",
                    "tcp:127.0.0.1:0,server=on,wait=on,nodelay=on",
                    "-kernel",
                    firmware.toString()))
            .redirectErrorStream(true)
            .start();
    String said = process.inputReader().readLine();
    Matcher listens = LISTENS.matcher(said == null ? "" : said);
    if (!listens.find()) {
      process.destroy();
      throw new IOException("QEMU said '" + said + "'");
    }
    return new CortexBoard(process, "tcp://" + listens.group(1));
  }

  /** The port to open. */
  String address() {
    return address;
  }

  @Override
  public void close() {
    process.destroyForcibly();
    process.onExit().join();
  }
}
