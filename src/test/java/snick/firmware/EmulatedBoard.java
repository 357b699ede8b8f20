package snick.firmware;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The firmware in its emulator, another process; its line is a pseudo-terminal. */
final class EmulatedBoard implements AutoCloseable {
  /** The device id of the document's example. */
  static final String ID = "00a1b2c3d4e5f607";

  private static final Pattern SUMMARY =
      Pattern.compile(
          "conversions (\\d+), bytes sent (\\d+), lost (\\d+), resets (\\d+), .*, stack (\\d+)");

  /** What the emulator printed at its end. */
  record Summary(long conversions, long sentBytes, long lostBytes, long resets, long stackBytes) {}

  private final Process process;
  private final BufferedReader printed;
  private final Path link;

  private EmulatedBoard(Process process, Path link) {
    this.process = process;
    this.printed = process.inputReader();
    this.link = link;
  }

  /**
   * Starts the emulator.
   *
   * @param make where firmware and emulator were built
   * @param folder for script and link
   * @param script lines of the script
   * @param options further options of the emulator
   */
  static EmulatedBoard start(Make make, Path folder, List<String> script, String... options)
      throws IOException {
    return start(make, make.elf(), folder, script, options);
  }

  /** Starts the emulator with another firmware than the reference. */
  static EmulatedBoard start(
      Make make, Path firmware, Path folder, List<String> script, String... options)
      throws IOException {
    Path scriptFile = Files.write(folder.resolve("script.txt"), script);
    Path link = folder.resolve("board");
    List<String> command =
        new ArrayList<>(
            List.of(
                make.emulator().toString(),
                "--link",
                link.toString(),
                "--script",
                scriptFile.toString(),
                "--control"));
    command.addAll(List.of(options));
    command.add(firmware.toString());
    Process process =
        new ProcessBuilder(command).redirectError(folder.resolve("stderr.txt").toFile()).start();
    EmulatedBoard board = new EmulatedBoard(process, link);
    board.awaitLine("ready");
    return board;
  }

  /** Reads what the emulator prints up to a line that begins so. */
  String awaitLine(String beginning) throws IOException {
    String line = printed.readLine();
    while (line != null && !line.startsWith(beginning)) {
      line = printed.readLine();
    }
    if (line == null) {
      throw new IOException("the emulator ended before it printed '" + beginning + "'");
    }
    return line;
  }

  /** The load changes: once the script is over, the converter rests about this code. */
  void restAt(int code) {
    try {
      process.getOutputStream().write((code + "\n").getBytes(StandardCharsets.US_ASCII));
      process.getOutputStream().flush();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The path to open. */
  Path link() {
    return link;
  }

  /** Stops the emulator; what it did. */
  Summary stop() throws IOException, InterruptedException {
    process.getOutputStream().close();
    Matcher summary = SUMMARY.matcher(awaitLine("conversions"));
    process.waitFor();
    if (!summary.find()) {
      throw new IOException("the emulator's summary is not what it should be");
    }
    return new Summary(
        Long.parseLong(summary.group(1)),
        Long.parseLong(summary.group(2)),
        Long.parseLong(summary.group(3)),
        Long.parseLong(summary.group(4)),
        Long.parseLong(summary.group(5)));
  }

  @Override
  public void close() throws IOException {
    process.getOutputStream().close();
    process.onExit().join();
  }
}
