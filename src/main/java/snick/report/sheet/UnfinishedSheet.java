package snick.report.sheet;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import snick.force.budget.Conditions;
import snick.force.reading.CalibrationPlan;
import snick.force.reading.GuidedState;
import snick.json.Json;
import snick.json.JsonNode;
import snick.store.database.StoreFile;

/**
 * A guided calibration on its way, in a file, to go on from after an interruption.
 *
 * @param state how far it has come
 * @param degree {@code auto} or a degree
 * @param conditions place, air and stability
 */
public record UnfinishedSheet(GuidedState state, String degree, Conditions conditions) {
  private static final int FORM = 1;

  /** Where one of the rig {@code deviceId} is kept: one file a rig, beside the store. */
  public static Path file(Path dataDirectory, String deviceId) {
    return dataDirectory.resolve(
        "unfinished-calibration-" + deviceId.replaceAll("[^A-Za-z0-9.-]", "_") + ".json");
  }

  /** The same, further on. */
  public UnfinishedSheet with(GuidedState further) {
    return new UnfinishedSheet(further, degree, conditions);
  }

  /** Writes it to {@code file}: the whole of it or nothing. */
  public void write(Path file) throws IOException {
    Files.createDirectories(file.toAbsolutePath().getParent());
    StoreFile.replace(file, Json.text(json()).getBytes(StandardCharsets.UTF_8));
  }

  private Map<String, Object> json() {
    return Json.object(
        "form", FORM,
        "degree", degree,
        "conditions", BenchJson.CONDITIONS.write(conditions),
        "setting", BenchJson.SETTING.write(state.setting()),
        "loads", BenchJson.LOAD.writeAll(state.plan().loads()),
        "planned_runs", state.plan().runs(),
        "falling", state.plan().falling(),
        "hold_s", state.plan().holdSeconds(),
        "done", BenchJson.RUN.writeAll(state.done()),
        "current", BenchJson.READING.writeAll(state.current()),
        "hold", BenchJson.READING.writeAll(state.hold()));
  }

  /**
   * Reads {@code file}.
   *
   * @throws IOException if it cannot be read
   * @throws RuntimeException if it is no such sheet; the message says what is wrong and where
   */
  public static UnfinishedSheet read(Path file) throws IOException {
    JsonNode node = JsonNode.of(file.getFileName().toString(), Files.readString(file));
    if (node.member("form").whole() != FORM) {
      throw new IllegalArgumentException("form " + node.member("form").whole() + " is not " + FORM);
    }
    CalibrationPlan plan =
        new CalibrationPlan(
            BenchJson.LOAD.readAll(node.member("loads")),
            node.member("planned_runs").integer(),
            node.member("falling").truth(),
            node.member("hold_s").real());
    GuidedState state =
        new GuidedState(
            plan,
            BenchJson.SETTING.read(node.member("setting")),
            BenchJson.RUN.readAll(node.member("done")),
            BenchJson.READING.readAll(node.member("current")),
            BenchJson.READING.readAll(node.member("hold")));
    return new UnfinishedSheet(
        state, node.member("degree").text(), BenchJson.CONDITIONS.read(node.member("conditions")));
  }
}
