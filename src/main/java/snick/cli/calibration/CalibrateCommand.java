package snick.cli.calibration;

import java.time.Clock;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snick.cli.bench.BenchFeed;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Terminal;
import snick.force.budget.Conditions;
import snick.force.budget.EdgeGeometry;
import snick.force.mass.Gravity;
import snick.force.mass.Load;
import snick.force.mass.MassClass;
import snick.force.mass.ReferenceMass;
import snick.force.reading.CalibrationData;
import snick.force.reading.CalibrationPlan;
import snick.force.reading.GuidedState;
import snick.phrase.Phrase;
import snick.phrase.Words;
import snick.quantity.Mass;
import snick.report.sheet.BenchSheet;
import snick.report.sheet.UnfinishedSheet;
import snick.virtualrig.settings.FixtureSettings;

/** Guides a calibration at the bench. */
@Command(
    name = "calibrate",
    description = {
      "Calibrate a rig against reference masses, guided step by step (rig-calibration/procedure.md);"
          + " or work with calibrations: see the commands below. Saves only at the end."
    },
    subcommands = {
      CalibrateFitCommand.class,
      CalibratePointsCommand.class,
      CalibrateLineCommand.class,
      CalibrateListCommand.class,
      CalibrateShowCommand.class,
      CalibrateConvertCommand.class
    },
    footer = {
      "  snick calibrate --virtual                        no hardware needed",
      "  snick calibrate /dev/ttyACM0 --masses rig-calibration/mass-set-m1.csv \\",
      "    --latitude 48.1 --height 520",
      "  snick calibrate /dev/ttyACM0 --masses set.csv --load 50g --load 100g \\",
      "    --load 100g+50g --gravity 9.807",
      "  snick calibrate /dev/ttyACM0 --resume            go on after an interruption",
      "",
      "No blade in the rig. Masses fall: work low over a soft tray, keep feet away.",
    })
public final class CalibrateCommand extends MassCommand {
  private static final int[] VIRTUAL_GRAMS = {20, 50, 100, 200, 500};
  private static final double VIRTUAL_UNCERTAINTY_OF_GRAVITY = 1e-4;

  @Mixin private PlaceChoice place;
  @Mixin private StabilityChoice stability;
  @Mixin private EdgeChoice edge;
  @Mixin private DegreeChoice degree;

  @Option(
      names = "--runs",
      paramLabel = "N",
      defaultValue = "3",
      description = "Runs up and down (default: ${DEFAULT-VALUE}).")
  private int runs;

  @Option(names = "--rising-only", description = "No falling readings.")
  private boolean risingOnly;

  @Option(
      names = "--hold",
      paramLabel = "S",
      defaultValue = "300",
      description =
          "Rest of the largest mass for creep, s, 0 for none (default: ${DEFAULT-VALUE}).")
  private double holdSeconds;

  @Option(
      names = "--polarity",
      paramLabel = "SIGN",
      defaultValue = "1",
      description = "1 if load raises the reading, -1 if it lowers it (default: ${DEFAULT-VALUE}).")
  private int polarity;

  @Option(names = "--resume", description = "Go on with the calibration that was interrupted.")
  private boolean resume;

  @Option(names = "--fresh", description = "Begin anew and forget an interrupted one.")
  private boolean fresh;

  @Override
  public Integer call() {
    rig.requireNamed();
    if (polarity != 1 && polarity != -1) {
      throw Refusal.usage("--polarity " + polarity + ": 1 or -1 allowed");
    }
    degree.rule();
    Optional<Asked> asked =
        resume ? Optional.empty() : Optional.of(new Asked(plan(), conditions()));
    rig.keptIn(data);
    try (BenchFeed bench = BenchFeed.open(rig, polarity)) {
      return calibrate(bench, asked);
    }
  }

  /** What the options ask for. */
  private record Asked(CalibrationPlan plan, Conditions conditions) {}

  private CalibrationPlan plan() {
    return Refusal.ifNotAccepted(
        () -> new CalibrationPlan(loads(), runs, !risingOnly, holdSeconds),
        why -> Refusal.badInput(why));
  }

  private List<Load> loads() {
    List<Load> given = masses.loads();
    if (given.isEmpty() && !rig.isVirtual()) {
      throw Refusal.usage(
          "name the masses: --masses rig-calibration/mass-set-m1.csv, or --mass 100g:M1 for each");
    }
    return given.isEmpty() ? virtualLoads() : given;
  }

  private static List<Load> virtualLoads() {
    return Arrays.stream(VIRTUAL_GRAMS)
        .mapToObj(grams -> Load.of(ReferenceMass.ofClass(MassClass.M1, Mass.ofGrams(grams))))
        .toList();
  }

  private Conditions conditions() {
    Gravity gravity = place.gravity().or(this::virtualGravity).orElseThrow(PlaceChoice::missing);
    return new Conditions(gravity, place.air(), stability.stability(), EdgeGeometry.NOT_STATED);
  }

  private Optional<Gravity> virtualGravity() {
    return rig.isVirtual()
        ? Optional.of(
            Gravity.measured(
                FixtureSettings.BENCH.gravityMetresPerSecondSquared(),
                VIRTUAL_UNCERTAINTY_OF_GRAVITY))
        : Optional.empty();
  }

  private int calibrate(BenchFeed bench, Optional<Asked> asked) {
    UnfinishedFile file = new UnfinishedFile(data.path(), bench.setting().deviceId());
    UnfinishedSheet sheet =
        asked.map(s -> begin(s, file, bench)).orElseGet(() -> goOn(file, bench));
    say("Rig " + bench.setting().deviceId() + ", gain " + bench.setting().gain() + ".");
    say("Steady means: over 2 s the drift stays below the noise of one sample at rest and the");
    say("scatter below twice that, twice in a row.");
    GuidedDialogue dialogue =
        new GuidedDialogue(
            bench,
            bench.operator(talk()),
            sheet.state(),
            state -> file.write(sheet.with(state)),
            talk(),
            !json && Terminal.watchesOutput());
    Thread interrupted = new Thread(() -> kept(file, dialogue.state()), "interrupted");
    Runtime.getRuntime().addShutdownHook(interrupted);
    boolean finished = dialogue.run();
    Runtime.getRuntime().removeShutdownHook(interrupted);
    if (!finished) {
      kept(file, dialogue.state());
      return ExitCode.FAILED;
    }
    return save(file, sheet, dialogue.state());
  }

  private UnfinishedSheet begin(Asked asked, UnfinishedFile file, BenchFeed bench) {
    if (file.isThere() && !fresh && !rig.isVirtual()) {
      throw Refusal.usage(
          "a calibration of this rig was interrupted and is kept in "
              + file.path()
              + "; go on with --resume, or begin anew with --fresh");
    }
    Conditions conditions = asked.conditions().at(edge.geometry(data, bench.setting().deviceId()));
    return new UnfinishedSheet(
        GuidedState.begin(asked.plan(), bench.setting()), degree.word(), conditions);
  }

  private UnfinishedSheet goOn(UnfinishedFile file, BenchFeed bench) {
    UnfinishedSheet kept =
        file.read()
            .orElseThrow(
                () -> Refusal.usage("no interrupted calibration of this rig; leave --resume out"));
    List<Phrase> differences = kept.state().setting().differences(bench.setting());
    if (!differences.isEmpty()) {
      throw Refusal.unavailable(
          differences.stream().map(Words.english()::say).collect(Collectors.joining("; "))
              + "; set the rig as it was, or begin anew with --fresh");
    }
    UnfinishedSheet resumed = kept.with(kept.state().resumed());
    say(
        "Going on: %s of %s runs are complete; a run that was under way begins again."
            .formatted(resumed.state().done().size(), resumed.state().plan().runs()));
    return resumed;
  }

  private void kept(UnfinishedFile file, GuidedState state) {
    say(
        "Stopped; nothing is saved. %s of %s runs are complete%s"
            .formatted(
                state.done().size(),
                state.plan().runs(),
                file.isThere() ? " and kept in " + file.path() + "; go on with --resume." : "."));
  }

  private int save(UnfinishedFile file, UnfinishedSheet sheet, GuidedState state) {
    CalibrationData readings = state.data().orElseThrow();
    BenchSheet done =
        new BenchSheet(Clock.systemUTC().instant(), sheet.degree(), sheet.conditions(), readings);
    NewCalibration saved = NewCalibration.save(done, data);
    file.delete();
    saved.print(out(), json);
    return ExitCode.OK;
  }

  private void say(String text) {
    talk().println(PlainText.inert(text));
    talk().flush();
  }
}
