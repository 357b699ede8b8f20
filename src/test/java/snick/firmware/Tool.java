package snick.firmware;

import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.stream.Stream;

/** What the firmware is built, tested and run with. */
enum Tool {
  GCC("gcc"),
  GXX("g++"),
  MAKE("make"),
  AVR_GCC("avr-gcc"),
  ARDUINO_CORE("avr-g++", "/usr/share/arduino/hardware/arduino/avr/cores/arduino/Arduino.h"),
  SIMAVR("simavr", "/usr/include/simavr/sim_avr.h"),
  ARM_GCC("arm-none-eabi-gcc", "/usr/include/newlib/string.h"),
  QEMU_ARM("qemu-system-arm"),
  PYTHON("python3");

  private final String program;
  private final Optional<Path> file;

  Tool(String program) {
    this.program = program;
    this.file = Optional.empty();
  }

  Tool(String program, String file) {
    this.program = program;
    this.file = Optional.of(Path.of(file));
  }

  /** Whether it is on this machine, with the file that comes in a package of its own. */
  boolean isHere() {
    String path = System.getenv().getOrDefault("PATH", "");
    boolean found =
        Stream.of(path.split(File.pathSeparator))
            .anyMatch(folder -> Files.isExecutable(Path.of(folder, program)));
    return found && file.map(Files::isReadable).orElse(true);
  }

  String program() {
    return program;
  }
}
