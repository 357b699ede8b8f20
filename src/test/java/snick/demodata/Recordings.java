package snick.demodata;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import snick.frame.message.Status;
import snick.port.CaptureWriter;
import snick.quantity.Force;
import snick.quantity.SampleRate;
import snick.virtualrig.Fault;
import snick.virtualrig.FaultyScript;
import snick.virtualrig.Rendering;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Arrivals;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.KnifeScenario;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.Altered;
import snick.virtualrig.settings.Disturbance;
import snick.virtualrig.settings.FilterShape;
import snick.virtualrig.settings.RigSettings;
import snick.virtualrig.settings.TextForm;

/** The recordings in demo-data, each made by the virtual rig from a stated seed. All invented. */
final class Recordings {
  private static final Instant BEGIN = Instant.parse("2026-01-01T10:00:00Z");

  private Recordings() {}

  /** One recording: how it is made. */
  record Recipe(RigSettings settings, long seed, FaultyScript script, boolean capture) {
    Recipe(RigSettings settings, long seed, Script script, boolean capture) {
      this(settings, seed, new FaultyScript(script), capture);
    }
  }

  /** Every recording by file name. */
  static Map<String, Recipe> all() {
    RigSettings usual = RigSettings.USUAL;
    Map<String, Recipe> all = new LinkedHashMap<>();
    all.put("kitchen-knife.capture", new Recipe(usual, 11, wholeStory(), true));
    all.put(
        "as-found.txt",
        new Recipe(
            usual.with(usual.device().withText(new TextForm(true, false, 0, false))),
            12,
            stage(0),
            false));
    all.put(
        "stropped-checked.txt",
        new Recipe(usual.with(usual.device().withText(TextForm.CHECKED)), 13, stage(2), false));
    all.put(
        "counts-only.txt",
        new Recipe(usual.with(usual.device().withText(TextForm.COUNTS)), 14, stage(1), false));
    all.put(
        "gram-force.txt",
        new Recipe(
            usual.with(usual.device().withText(new TextForm(true, false, 2, false))),
            15,
            stage(2),
            false));
    all.put(
        "ten-a-second.txt",
        new Recipe(
            usual
                .with(usual.converter().withRate(new SampleRate(10)))
                .with(usual.device().withText(new TextForm(true, false, 0, false))),
            16,
            stage(1),
            false));
    all.put(
        "reversed-cell-320.capture",
        new Recipe(
            usual.with(
                Altered.withScale(
                    Altered.withFilter(
                        usual.converter().withRate(new SampleRate(320)), FilterShape.BOX),
                    -3_000,
                    -437.25)),
            17,
            stage(1),
            true));
    all.put(
        "what-goes-wrong.capture",
        new Recipe(
            usual
                .with(Altered.withSpikes(Disturbance.ORDINARY, 20, 40))
                .with(Altered.withStartMicros(usual.device(), 4_290_000_000L)),
            18,
            whatGoesWrong(),
            true));
    return all;
  }

  private static Script wholeStory() {
    List<Action> actions = new ArrayList<>(List.of(new Action.Rest(2)));
    KnifeScenario.stages().forEach(stage -> actions.addAll(stage.script().actions()));
    return new Script(actions);
  }

  private static Script stage(int index) {
    List<Action> actions = new ArrayList<>(List.of(new Action.Rest(2)));
    actions.addAll(KnifeScenario.stages().get(index).script().actions());
    return new Script(actions);
  }

  private static FaultyScript whatGoesWrong() {
    return new FaultyScript(
            Script.of(
                new Action.Rest(3),
                Action.Cut.ofGramForce(120, 100),
                new Action.Rest(1),
                new Action.Release(Force.ofGramForce(60), 80),
                new Action.Rest(1),
                Action.Cut.ofGramForce(90, 60).partingInTwoSteps(),
                new Action.Rest(1)))
        .thenGoWrong(new Fault.BitErrors(0.0005))
        .then(Action.Cut.ofGramForce(130, 90), new Action.Rest(1))
        .thenGoWrong(new Fault.BitErrors(0))
        .thenGoWrong(new Fault.Silence(0.5))
        .then(new Action.Rest(2), Action.Cut.ofGramForce(140, 400), new Action.Rest(1))
        .thenGoWrong(new Fault.Reset(Status.ResetCause.WATCHDOG, true))
        .then(new Action.Rest(3), Action.Cut.ofGramForce(25, 40), new Action.Rest(1));
  }

  /** The recording's bytes. */
  static byte[] render(Recipe recipe, Path scratch) throws IOException {
    return recipe.capture() ? capture(recipe, scratch) : plain(recipe);
  }

  private static byte[] plain(Recipe recipe) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    render(recipe, (nanos, piece, length) -> bytes.write(piece, 0, length));
    return bytes.toByteArray();
  }

  private static byte[] capture(Recipe recipe, Path scratch) throws IOException {
    Path file = scratch.resolve("recording.capture");
    Files.deleteIfExists(file);
    try (CaptureWriter writer = CaptureWriter.create(file, BEGIN, "virtual rig")) {
      render(
          recipe,
          (nanos, piece, length) -> {
            try {
              writer.append(nanos, piece, length);
            } catch (IOException e) {
              throw new UncheckedIOException(e);
            }
          });
    }
    return Files.readAllBytes(file);
  }

  private static void render(Recipe recipe, Arrivals arrivals) {
    VirtualRig rig = new VirtualRig(recipe.settings(), recipe.seed());
    new Rendering(rig, arrivals, truth -> {}).play(recipe.script());
  }
}
