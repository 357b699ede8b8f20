package snick.firmware;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * A device in another language, written from firmware-protocol.md alone. What the document left
 * open when it was written is said there now.
 */
final class IndependentDevice implements AutoCloseable {
  private static final Path PROGRAM =
      Path.of("src/test/resources/snick/conformance/independent_device.py");

  private static final Path TERMINAL = PROGRAM.resolveSibling("on_a_terminal.py");

  private final Process process;
  private final String address;

  private IndependentDevice(Process process, String address) {
    this.process = process;
    this.address = address;
  }

  static IndependentDevice start() throws IOException {
    Process process = start(PROGRAM);
    return new IndependentDevice(process, "tcp://127.0.0.1:" + process.inputReader().readLine());
  }

  /** One on a pseudo-terminal in raw mode, which is as near to a serial line as a file comes. */
  static IndependentDevice startOnTerminal(Path link) throws IOException {
    Process process = start(TERMINAL, link.toString());
    process.inputReader().readLine();
    return new IndependentDevice(process, link.toString());
  }

  private static Process start(Path program, String... arguments) throws IOException {
    List<String> command = new ArrayList<>(List.of("python3", program.toString()));
    command.addAll(List.of(arguments));
    return new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.INHERIT).start();
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
