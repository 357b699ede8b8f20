package snick.firmware;

import java.io.IOException;
import java.nio.file.Path;

/**
 * A device in another language, written from firmware-protocol.md alone. What the document left
 * open when it was written is said there now.
 */
final class IndependentDevice implements AutoCloseable {
  private static final Path PROGRAM =
      Path.of("src/test/resources/snick/conformance/independent_device.py");

  private final Process process;
  private final String address;

  private IndependentDevice(Process process, String address) {
    this.process = process;
    this.address = address;
  }

  static IndependentDevice start() throws IOException {
    Process process =
        new ProcessBuilder("python3", PROGRAM.toString())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    return new IndependentDevice(process, "tcp://127.0.0.1:" + process.inputReader().readLine());
  }

  /** The port to open. */
  String address() {
    return address;
  }

  @Override
  public void close() throws IOException {
    process.getOutputStream().close();
    process.onExit().join();
  }
}
