package snick.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;

/** Runs the firmware's Makefile; what it builds goes to a folder under target. */
record Make(Path folder) {
  /** The firmware as it is. */
  static final Make REFERENCE = new Make(Path.of("target", "firmware").toAbsolutePath());

  Path elf() {
    return folder.resolve("firmware.elf");
  }

  /** The library's example of that name, for the board of the emulator. */
  Path avrSketch(String name) {
    return folder.resolve("avr/" + name + ".elf");
  }

  Path cortexM() {
    return folder.resolve("cortex-m.elf");
  }

  Path emulator() {
    return folder.resolve("emulator");
  }

  /**
   * Runs make, as the only one in the folder; gives what it printed, fails with that if it does.
   */
  String run(String... targetsAndVariables) throws IOException, InterruptedException {
    List<String> command =
        new ArrayList<>(List.of("make", "-s", "-C", "src/firmware", "OUT=" + folder));
    command.addAll(List.of(targetsAndVariables));
    Path turn = Files.createDirectories(folder).resolve("turn");
    try (FileChannel one =
        FileChannel.open(turn, StandardOpenOption.CREATE, StandardOpenOption.WRITE)) {
      one.lock();
      return printed(command);
    }
  }

  private static String printed(List<String> command) throws IOException, InterruptedException {
    Process make = new ProcessBuilder(command).redirectErrorStream(true).start();
    make.getOutputStream().close();
    String printed = new String(make.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(make.waitFor()).as("%s printed:%n%s", String.join(" ", command), printed).isZero();
    return printed;
  }
}
