package snick.view;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.ConcurrentHashMap;
import snick.force.budget.Calibration;
import snick.force.budget.Conditions;
import snick.force.budget.EdgeGeometry;
import snick.force.fit.DegreeRule;
import snick.force.mass.AirDensity;
import snick.force.mass.Gravity;
import snick.force.mass.Load;
import snick.force.mass.MassWord;
import snick.force.reading.CalibrationPlan;
import snick.force.reading.GuidedState;
import snick.force.reading.RigSetting;
import snick.json.Json;
import snick.live.RigState;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.quantity.Force;
import snick.report.sheet.BenchSheet;
import snick.report.sheet.UnfinishedSheet;
import snick.store.KeptPlace;
import snick.store.record.StoredCalibration;
import snick.view.bench.Bench;
import snick.view.http.Fields;
import snick.view.http.Request;
import snick.view.work.CalibrationWork;
import snick.view.work.CheckWork;
import snick.view.work.LookWork;
import snick.view.work.RigWork;

/**
 * What is being done at each rig: a calibration, a check mass, a look at it. Safe for any thread;
 * what a person begins or stops, on the board's thread, which follows it.
 */
final class RigWorks {
  private static final double USUAL_HOLD_SECONDS = 300;
  private static final double USUAL_LOOK_SECONDS = 20;
  private static final double SHORTEST_LOOK_SECONDS = 5;
  private static final double LONGEST_LOOK_SECONDS = 600;
  private static final int USUAL_RUNS = 3;

  private final Bench bench;
  private final Map<Integer, RigWork> works = new ConcurrentHashMap<>();
  private final Map<Integer, Instant> touched = new ConcurrentHashMap<>();

  RigWorks(Bench bench) {
    this.bench = bench;
  }

  /** Whether some rig's work still needs samples. */
  boolean busy() {
    return works.values().stream().anyMatch(work -> !work.done());
  }

  /** How far the work at a rig has come; empty if there is none. */
  Optional<Map<String, Object>> json(int rig) {
    return Optional.ofNullable(works.get(rig)).map(RigWork::json);
  }

  /** Whether a calibration of this rig was interrupted and can go on. */
  boolean unfinished(int rig) {
    return !works.containsKey(rig)
        && bench
            .rigs()
            .scales()
            .setting()
            .apply(rig)
            .filter(s -> Files.exists(file(s)))
            .isPresent();
  }

  private Path file(RigSetting setting) {
    return UnfinishedSheet.file(bench.doors().folder(), setting.deviceId());
  }

  /**
   * Goes on with what has samples enough; what nobody acts on any more gives its samples back, for
   * the cuts of whoever closed the page must not be lost. The board's thread.
   */
  void follow() {
    works.forEach(
        (rig, work) -> {
          work.follow();
          if (work.done() && !work.leavesMass()) {
            bench.rigs().taps().get(rig).turnBack();
          } else if (bench.clock().instant().isAfter(touched.get(rig).plus(work.patience()))) {
            putAway(rig);
          }
        });
  }

  private void putAway(int rig) {
    bench.rigs().taps().get(rig).turnBack();
    works.remove(rig);
    touched.remove(rig);
  }

  /** Begins a guided calibration, or goes on with one. */
  Map<String, Object> calibrate(Request asked, Fields fields) {
    int rig = free(asked);
    RigSetting setting = setting(rig, polarity(fields));
    UnfinishedSheet sheet = fields.truth("resume") ? resumed(setting) : fresh(fields, setting);
    return begin(
        rig,
        new CalibrationWork(
            bench, sheet, file(setting), made -> bench.rigs().scales().use().accept(made, rig)));
  }

  private static int polarity(Fields fields) {
    double sign = fields.number("polarity").orElse(1);
    if (Math.abs(sign) != 1) {
      throw new NotAccepted("refused.polarity", "value", sign);
    }
    return (int) sign;
  }

  private UnfinishedSheet fresh(Fields fields, RigSetting setting) {
    if (Files.exists(file(setting)) && !fields.truth("fresh")) {
      throw new NotAccepted("refused.calibration_interrupted");
    }
    List<Load> loads =
        fields.texts("loads").stream()
            .map(MassWord::load)
            .sorted(Comparator.comparingDouble(Load::nominalGrams))
            .toList();
    CalibrationPlan plan =
        new CalibrationPlan(
            loads,
            (int) fields.number("runs").orElse(USUAL_RUNS),
            !fields.truth("rising_only"),
            fields.number("hold_s").orElse(USUAL_HOLD_SECONDS));
    Conditions conditions =
        new Conditions(
            gravity(fields).orElseThrow(RigWorks::placeMissing),
            AirDensity.standard(),
            Conditions.Stability.USUAL,
            new EdgeGeometry(KeptPlace.effect(bench.reader(), setting.deviceId()), 0, 0, 0));
    return new UnfinishedSheet(GuidedState.begin(plan, setting), DegreeRule.AUTO, conditions);
  }

  private static NotAccepted placeMissing() {
    return new NotAccepted("refused.place_of_rig_missing");
  }

  private static Optional<Gravity> gravity(Fields fields) {
    if (fields.truth("anywhere")) {
      return Optional.of(Gravity.onEarth());
    }
    OptionalDouble latitude = fields.number("latitude_degrees");
    return latitude.isPresent()
        ? Optional.of(Gravity.at(latitude.getAsDouble(), fields.number("height_metres").orElse(0)))
        : Optional.empty();
  }

  private UnfinishedSheet resumed(RigSetting setting) {
    UnfinishedSheet kept = kept(file(setting));
    RigSetting now =
        new RigSetting(
            setting.deviceId(),
            setting.gain(),
            setting.nominalRate(),
            kept.state().setting().polarity());
    List<Phrase> differences = kept.state().setting().differences(now);
    if (!differences.isEmpty()) {
      throw new NotAccepted(
          "refused.rig_set_otherwise", "differences", List.<Object>copyOf(differences));
    }
    return kept.with(kept.state().resumed());
  }

  private static UnfinishedSheet kept(Path file) {
    try {
      return UnfinishedSheet.read(file);
    } catch (IOException | IllegalArgumentException e) {
      throw new NotAccepted("refused.no_interrupted_calibration");
    }
  }

  /** Begins a check with one mass. */
  Map<String, Object> check(Request asked, Fields fields) {
    int rig = free(asked);
    Load load = MassWord.load(fields.needed("load"));
    StoredCalibration stored = inUse(rig);
    Optional<Conditions> made = stored.document().flatMap(RigWorks::conditions);
    Load.Exerted exerted =
        load.exerted(
            gravity(fields)
                .or(() -> made.map(Conditions::gravity))
                .orElseThrow(RigWorks::placeMissing),
            made.map(Conditions::air).orElseGet(AirDensity::standard));
    requireInRange(stored.calibration(), exerted);
    return begin(rig, new CheckWork(bench, stored.calibration(), load, exerted));
  }

  private static void requireInRange(Calibration calibration, Load.Exerted load) {
    if (!calibration.range().holds(load.force().newtons())) {
      throw new NotAccepted(
          Phrase.of("refused.mass_outside_range")
              .with("mass", grams(load.force()))
              .with("from", grams(calibration.range().from()))
              .with("to", grams(calibration.range().to())));
    }
  }

  private static String grams(Force force) {
    return String.format(Locale.ROOT, "%.1f", force.gramForce());
  }

  private StoredCalibration inUse(int rig) {
    RigSetting setting = setting(rig, 1);
    StoredCalibration stored =
        bench
            .reader()
            .currentCalibration(setting.deviceId())
            .filter(c -> c.calibration().boundTo().isPresent())
            .orElseThrow(
                () ->
                    new NotAccepted("refused.rig_without_calibration", "rig", setting.deviceId()));
    RigSetting now = setting(rig, stored.calibration().boundTo().orElseThrow().polarity());
    if (stored.calibration().fits(now) instanceof Calibration.Fit.Stranger stranger) {
      throw new NotAccepted(
          Phrase.of("refused.rig_set_since_calibration")
              .with("differences", List.<Object>copyOf(stranger.reasons())));
    }
    return stored;
  }

  private static Optional<Conditions> conditions(String document) {
    try {
      return Optional.of(BenchSheet.parse(document).conditions());
    } catch (RuntimeException e) {
      return Optional.empty();
    }
  }

  /** Begins to look at a rig at rest. */
  Map<String, Object> look(Request asked, Fields fields) {
    double seconds = fields.number("seconds").orElse(USUAL_LOOK_SECONDS);
    if (!(seconds >= SHORTEST_LOOK_SECONDS && seconds <= LONGEST_LOOK_SECONDS)) {
      throw new NotAccepted("refused.look_seconds", "seconds", seconds);
    }
    int rig = free(asked);
    return begin(rig, new LookWork(bench, () -> bench.state().get().rigs().get(rig), seconds));
  }

  /** The rig asked for, if it sends and does no other work; one that is done gives way. */
  private int free(Request asked) {
    int rig = rig(asked);
    if (works.containsKey(rig) && !works.get(rig).done()) {
      throw new NotAccepted("refused.other_work");
    }
    if (bench.state().get().rigs().get(rig).link() != RigState.Link.RECORDING) {
      throw new NotAccepted("refused.no_readings");
    }
    return rig;
  }

  private Map<String, Object> begin(int rig, RigWork work) {
    touched.put(rig, bench.clock().instant());
    works.put(rig, work);
    bench.rigs().taps().get(rig).turnTo(work);
    return work.json();
  }

  /** The person says that what was asked for is done. Any thread. */
  Map<String, Object> confirm(Request asked) {
    RigWork work = work(asked);
    work.confirm();
    touched.computeIfPresent(rig(asked), (rig, before) -> bench.clock().instant());
    return work.json();
  }

  /** Stops the work, or puts the result of one that is done away; what is kept stays kept. */
  Map<String, Object> stop(Request asked, Fields fields) {
    work(asked).follow();
    putAway(rig(asked));
    return Json.object("stopped", true);
  }

  /** Keeps a session from beginning while work is under way. Any thread. */
  void requireDone() {
    if (busy()) {
      throw new NotAccepted("refused.work_under_way");
    }
  }

  /** A session has begun: what is done gives way. The board's thread. */
  void giveWay() {
    works.keySet().forEach(this::putAway);
  }

  private RigWork work(Request asked) {
    return Optional.ofNullable(works.get(rig(asked)))
        .orElseThrow(() -> new NotAccepted("refused.no_work"));
  }

  private int rig(Request asked) {
    long number = asked.number();
    if (number >= bench.rigs().taps().size()) {
      throw new NotAccepted("refused.no_such_rig", "n", number);
    }
    return (int) number;
  }

  private RigSetting setting(int rig, int polarity) {
    RigSetting now =
        bench
            .rigs()
            .scales()
            .setting()
            .apply(rig)
            .orElseThrow(() -> new NotAccepted("refused.rig_unknown"));
    return new RigSetting(now.deviceId(), now.gain(), now.nominalRate(), polarity);
  }
}
