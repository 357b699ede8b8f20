package snick.firmware;

import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;

/** What the firmware is built, tested and run with. */
enum Tool {
  GCC("gcc"),
  GXX("g++"),
  MAKE("make"),
  AVR_GCC("avr-gcc"),
  SIMAVR("simavr");

  private static final Path SIMAVR_HEADER = Path.of("/usr/include/simavr/sim_avr.h");

  private final String program;

  Tool(String program) {
    this.program = program;
  }

  /** Whether it is on this machine; for the emulator's library, its header too. */
  boolean isHere() {
    String path = System.getenv().getOrDefault("PATH", "");
    boolean found =
        Stream.of(path.split(File.pathSeparator))
            .anyMatch(folder -> Files.isExecutable(Path.of(folder, program)));
    return found && (this != SIMAVR || Files.isReadable(SIMAVR_HEADER));
  }

  String program() {
    return program;
  }
}
