package snick.report.sheet;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Map;
import snick.force.budget.Conditions;
import snick.force.mass.Load;
import snick.force.reading.CalibrationPlan;
import snick.force.reading.GuidedState;
import snick.json.Json;
import snick.json.JsonNode;

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
    Path partial = file.resolveSibling(file.getFileName() + ".partial");
    try {
      Files.writeString(partial, Json.text(json()));
      Files.move(
          partial, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(partial);
    }
  }

  private Map<String, Object> json() {
    return Json.object(
        "form", FORM,
        "degree", degree,
        "conditions", BenchJson.of(conditions),
        "setting", BenchJson.of(state.setting()),
        "loads", state.plan().loads().stream().map(BenchJson::of).toList(),
        "planned_runs", state.plan().runs(),
        "falling", state.plan().falling(),
        "hold_s", state.plan().holdSeconds(),
        "done", state.done().stream().map(BenchJson::of).toList(),
        "current", BenchJson.readings(state.current()),
        "hold", BenchJson.readings(state.hold()));
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
    List<Load> loads = node.member("loads").elements().stream().map(BenchJson::load).toList();
    CalibrationPlan plan =
        new CalibrationPlan(
            loads,
            node.member("planned_runs").integer(),
            node.member("falling").truth(),
            node.member("hold_s").real());
    GuidedState state =
        new GuidedState(
            plan,
            BenchJson.setting(node.member("setting")),
            node.member("done").elements().stream().map(BenchJson::run).toList(),
            BenchJson.readings(node.member("current")),
            BenchJson.readings(node.member("hold")));
    return new UnfinishedSheet(
        state, node.member("degree").text(), BenchJson.conditions(node.member("conditions")));
  }
}
