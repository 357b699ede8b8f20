package snick.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.settings.DeviceSettings;
import snick.virtualrig.settings.RigSettings;
import snick.virtualrig.settings.TextForm;

/** The shipped jar's protocol check on the virtual rig's pseudo-terminal. */
@EnabledOnOs({OS.LINUX, OS.MAC})
@Timeout(120)
class VirtualRigConformanceIT {
  @TempDir private Path folder;

  private ServedRig serve(DeviceSettings device) throws Exception {
    return new VirtualRig(RigSettings.USUAL.with(device), 1)
        .serveOnPseudoTerminal(
            folder.resolve("rig"),
            Pacer.of(System::nanoTime, 1),
            VirtualRig.WhenFull.DROP,
            truth -> {});
  }

  @Test
  void virtualRigPasses() throws Exception {
    try (ServedRig rig = serve(DeviceSettings.USUAL);
        Jar jar = Jar.run(folder, "protocol", "check", rig.port())) {
      List<String> lines = jar.lines().toList();
      assertThat(lines).filteredOn(line -> line.matches("(passed|FAILED) .*")).hasSize(22);
      List<String> missed = lines.stream().filter(line -> line.startsWith("FAILED")).toList();
      assertThat(missed)
          .as("missed, besides what is timed against this machine, which may have other work")
          .allMatch(line -> line.matches("FAILED +(answer-time|clock) .*"));
      assertThat(lines)
          .last()
          .isEqualTo(
              "%d passed, %d failed, 0 not tried".formatted(22 - missed.size(), missed.size()));
      assertThat(jar.exitStatus()).isEqualTo(missed.isEmpty() ? 0 : 3);
    }
  }

  @Test
  void aSketchThatPrintsLinesDoesNot() throws Exception {
    try (ServedRig rig = serve(DeviceSettings.USUAL.withText(TextForm.COUNTS));
        Jar jar = Jar.run(folder, "protocol", "check", rig.port())) {
      List<String> lines = jar.lines().toList();
      assertThat(lines).last().asString().isEqualTo("0 passed, 1 failed, 21 not tried");
      assertThat(jar.exitStatus()).isEqualTo(3);
    }
  }
}
