package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.settings.RigSettings;

/** A recorder on a machine that has other users, and whose terminal may go away. */
@EnabledOnOs(OS.LINUX)
@Timeout(120)
class SharedMachineIT {
  private static final long ENDS_WITHIN_MILLIS = 20_000;

  /** Exit status of a Java that SIGHUP ended in good order: 128 and the signal's number. */
  private static final int HUNG_UP = 129;

  /** Said once the device has named itself: its port is open. */
  private static final String RIG_HEARD = "no calibration for rig";

  /** A test before may have made this process ignore SIGHUP, which its children inherit. */
  private static final List<String> HEEDS_HANGING_UP = List.of("env", "--default-signal=HUP");

  @TempDir private Path folder;
  private ServedRig rig;

  @BeforeEach
  void serve() throws Exception {
    rig =
        new VirtualRig(RigSettings.USUAL, 1)
            .serve(
                folder.resolve("rig"),
                Pacer.of(System::nanoTime, 5),
                VirtualRig.WhenFull.DROP,
                truth -> {});
  }

  @AfterEach
  void unplug() {
    rig.close();
  }

  private Running record(List<String> starter) throws Exception {
    return Running.by(
        starter,
        folder,
        List.of("-Duser.home=" + folder.resolve("home")),
        "run",
        folder.resolve("rig").toString(),
        "--no-http",
        "--data",
        folder.resolve("data").toString());
  }

  /** Libraries that the process runs code of, from below the test's folder. */
  private Set<Path> loaded(Running recorder) throws IOException {
    try (Stream<String> maps = Files.lines(Path.of("/proc/" + recorder.pid() + "/maps"))) {
      return maps.filter(line -> line.contains(folder + "/") && line.endsWith(".so"))
          .map(line -> Path.of(line.substring(line.indexOf('/'))))
          .collect(Collectors.toSet());
    }
  }

  @Test
  void whatOthersPlantedIsNotRun() throws Exception {
    Path planted = folder.resolve("tmp/jSerialComm/2.11.4/libjSerialComm.so");
    plant(planted);
    Path own = folder.resolve("home/.cache/snick/native/libjSerialComm.so");
    Files.createDirectories(own.getParent());
    Files.writeString(own, "what somebody left here");
    try (Running recorder = record(List.of())) {
      recorder.await(RIG_HEARD);
      assertThat(loaded(recorder)).contains(own).allMatch(library -> !library.startsWith(tmp()));
      assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(own.getParent())))
          .isEqualTo("rwx------");
      assertThat(Files.readAllBytes(own)).isEqualTo(Files.readAllBytes(planted));
      assertThat(Files.readString(Path.of("/proc/" + recorder.pid() + "/maps")))
          .containsPattern(own.getParent() + "/jna\\d+\\.tmp")
          .doesNotContain(tmp() + "/jna");
      recorder.terminate();
    }
  }

  private Path tmp() {
    return folder.resolve("tmp");
  }

  /** The library itself, so that it would work, and be seen, if it were loaded from there. */
  private static void plant(Path file) throws IOException {
    Files.createDirectories(file.getParent());
    String machine = System.getProperty("os.arch").equals("aarch64") ? "armv8_64" : "x86_64";
    try (InputStream in =
        SharedMachineIT.class.getResourceAsStream("/Linux/" + machine + "/libjSerialComm.so")) {
      Files.copy(in, file);
    }
  }

  @Test
  void aTerminalThatIsClosedEndsTheRecorderInGoodOrder() throws Exception {
    try (Running recorder = record(HEEDS_HANGING_UP)) {
      recorder.await(RIG_HEARD);
      SystemProgram.demand("kill", "-HUP", Long.toString(recorder.pid()));
      boolean ended = recorder.endsWithin(ENDS_WITHIN_MILLIS);
      assertThat(ended).as("%s", ended ? "" : recorder.stacks()).isTrue();
      assertThat(recorder.over()).isEqualTo(HUNG_UP);
      assertThat(recorder.lines())
          .anyMatch(line -> line.contains("everything announced is stored"));
    }
  }

  @Test
  void startedWithNohupItGoesOn() throws Exception {
    try (Running recorder = record(List.of("nohup"))) {
      recorder.await(RIG_HEARD);
      assertThat(ignored(recorder) & 1).as("SIGHUP among the ignored").isOne();
      SystemProgram.demand("kill", "-HUP", Long.toString(recorder.pid()));
      assertThat(recorder.endsWithin(1000)).isFalse();
      recorder.terminate();
    }
  }

  /** Signals that the process ignores, one bit each (proc(5)). */
  private static long ignored(Running recorder) throws IOException {
    return Files.readAllLines(Path.of("/proc/" + recorder.pid() + "/status")).stream()
        .filter(line -> line.startsWith("SigIgn:"))
        .mapToLong(line -> Long.parseUnsignedLong(line.substring(7).strip(), 16))
        .findFirst()
        .orElseThrow();
  }
}
