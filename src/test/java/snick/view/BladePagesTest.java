package snick.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cli.Ran;

/** A blade's history as the page reads it. */
class BladePagesTest {
  private static final String HISTORY = "/api/v1/blades/history?blade=petty";

  /** The page tells what was noted; its own sessions note rig and calibration. */
  @Test
  void rigAndCalibrationAreThoseNoted(@TempDir Path folder) throws Exception {
    try (TestBench bench = new TestBench(folder)) {
      String data = folder.resolve("data").toString();
      Ran.command("session", "start", "typed", "--blade", "petty", "--data", data);
      bench.cut(101);
      bench.cut(102);
      assertThat(bench.get(HISTORY).body())
          .contains("\"cuts\":2")
          .doesNotContain("\"rig\"", "\"calibration\"");
      assertThat(bench.get("/api/v1/blades/history.svg?blade=petty").body())
          .contains(TestBench.DEVICE.substring(0, 8));
      Ran.command("session", "stop", "--data", data);
      bench.post("sessions", "{\"blade\":\"petty\"}");
      assertThat(bench.get(HISTORY).body())
          .contains("\"rig\":\"" + TestBench.DEVICE, "\"calibration\":\"cal-", "\"changed\":[]");
    }
  }
}
