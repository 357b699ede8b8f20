package snick.view.work;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import snick.force.budget.Calibration;
import snick.force.budget.Evaluation;
import snick.force.reading.CalibrationPlan;
import snick.force.reading.GuidedCalibration;
import snick.force.reading.GuidedState;
import snick.force.reading.HeldReading;
import snick.force.reading.Steadiness;
import snick.json.Json;
import snick.phrase.Phrase;
import snick.phrase.Told;
import snick.phrase.Words;
import snick.report.sheet.BenchSheet;
import snick.report.sheet.UnfinishedSheet;
import snick.store.database.StoreException;
import snick.view.bench.Bench;

/** A guided calibration from the page: as {@code snick calibrate}, and kept in the same file. */
public final class CalibrationWork extends GuidedWork<GuidedCalibration> {
  private final Bench bench;
  private final UnfinishedSheet sheet;
  private final Path file;
  private final Consumer<Calibration> use;
  private GuidedState kept;
  private Optional<String> saved = Optional.empty();
  private Optional<Phrase> failed = Optional.empty();

  /**
   * Begins, or goes on, where {@code sheet} is.
   *
   * @param use takes the calibration once it is stored
   */
  public CalibrationWork(Bench bench, UnfinishedSheet sheet, Path file, Consumer<Calibration> use) {
    super(new GuidedCalibration(sheet.state(), Steadiness.USUAL), GuidedCalibration::confirm);
    this.bench = bench;
    this.sheet = sheet;
    this.file = file;
    this.use = use;
    this.kept = sheet.state();
  }

  @Override
  public synchronized boolean done() {
    return saved.isPresent() || failed.isPresent();
  }

  private synchronized GuidedState state() {
    return guide.state();
  }

  @Override
  public void follow() {
    GuidedState now = state();
    if (done() || now.equals(kept)) {
      return;
    }
    try {
      sheet.with(now).write(file);
      kept = now;
      if (now.step().isEmpty()) {
        save(now);
      }
    } catch (IOException e) {
      fail(done() ? "work.saved_but_sheet_stays" : "work.not_kept", Told.of(e));
    } catch (IllegalArgumentException e) {
      fail("work.no_calibration_comes", Told.of(e));
    } catch (StoreException e) {
      fail("work.not_saved_go_on", e.why());
    }
  }

  private void save(GuidedState now) throws IOException {
    BenchSheet done =
        new BenchSheet(
            bench.clock().instant(), sheet.degree(), sheet.conditions(), now.data().orElseThrow());
    Evaluation evaluation = done.evaluate();
    bench.writer().add(evaluation.calibration(), Optional.of(done.text()));
    use.accept(evaluation.calibration());
    synchronized (this) {
      saved = Optional.of(evaluation.calibration().id());
    }
    Files.deleteIfExists(file);
  }

  private synchronized void fail(String key, Phrase why) {
    failed = Optional.of(Phrase.of(key, "why", why));
  }

  @Override
  public Duration patience() {
    long holdMillis = Math.round(1e3 * sheet.state().plan().holdSeconds());
    return super.patience().plusMillis(holdMillis);
  }

  @Override
  public synchronized Map<String, Object> json() {
    GuidedState now = guide.state();
    return Json.object(
        "work", "calibration",
        "phase", guide.phase().word(),
        "step", StepAsked.of(guide.step()),
        "run", now.run(),
        "runs", now.plan().runs(),
        "taken", now.current().size(),
        "of", now.plan().runSteps().size(),
        "settling", StepAsked.of(guide.settling()),
        "refused", guide.refused().map(this::refused),
        "readings", readings(now),
        "calibration", saved,
        "failed", failed.map(bench.preferences().words()::say));
  }

  private Map<String, Object> refused(GuidedCalibration.Refused why) {
    Words words = bench.preferences().words();
    return Json.object(
        "cause", why.cause().word(),
        "message", words.say(why.message()),
        "remedy", words.say(why.remedy()));
  }

  /** The readings of the run under way. */
  private static List<Object> readings(GuidedState now) {
    List<Object> readings = new ArrayList<>();
    List<CalibrationPlan.Step> steps = now.plan().runSteps();
    for (int i = 0; i < now.current().size(); i++) {
      HeldReading reading = now.current().get(i);
      Map<String, Object> object = StepAsked.of(reading);
      object.put("step", StepAsked.of(Optional.of(steps.get(i))).orElseThrow());
      readings.add(object);
    }
    return readings;
  }
}
