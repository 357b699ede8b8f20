package snick.view.work;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.force.budget.Calibration;
import snick.force.check.MassCheck;
import snick.force.mass.Load;
import snick.force.reading.GuidedCheck;
import snick.force.reading.Steadiness;
import snick.json.Json;
import snick.phrase.Phrase;
import snick.phrase.Told;
import snick.phrase.Words;
import snick.quantity.Force;
import snick.report.sheet.CheckSheet;
import snick.store.database.StoreException;
import snick.view.bench.Bench;

/** A check mass put on from the page: as {@code snick verify}. */
public final class CheckWork extends GuidedWork<GuidedCheck> {
  private final Bench bench;
  private final Calibration calibration;
  private final Load load;
  private final Load.Exerted exerted;
  private Optional<MassCheck> result = Optional.empty();
  private Optional<Phrase> failed = Optional.empty();

  /** A check of {@code calibration}, which is bound to its rig, with {@code load}. */
  public CheckWork(Bench bench, Calibration calibration, Load load, Load.Exerted exerted) {
    super(new GuidedCheck(load, Steadiness.USUAL), GuidedCheck::confirm);
    this.bench = bench;
    this.calibration = calibration;
    this.load = load;
    this.exerted = exerted;
  }

  @Override
  public synchronized boolean done() {
    return result.isPresent() || failed.isPresent();
  }

  @Override
  public synchronized void follow() {
    if (done() || guide.loaded().isEmpty()) {
      return;
    }
    try {
      MassCheck found =
          MassCheck.of(
              calibration,
              exerted,
              guide.zero().orElseThrow(),
              guide.loaded().get(),
              OptionalDouble.empty());
      bench
          .writer()
          .add(
              CheckSheet.of(
                  calibration,
                  found,
                  new CheckSheet.Reading(
                      load,
                      exerted,
                      List.of(guide.zero().orElseThrow(), guide.loaded().get()),
                      bench.clock().instant())));
      result = Optional.of(found);
    } catch (IllegalArgumentException | StoreException e) {
      failed = Optional.of(Phrase.of("work.not_saved", "why", Told.of(e)));
    }
  }

  @Override
  public synchronized Map<String, Object> json() {
    Words words = bench.preferences().words();
    return Json.object(
        "work", "check",
        "phase", guide.phase().word(),
        "step", StepAsked.of(guide.step()),
        "settling", StepAsked.of(guide.settling()),
        "refused", guide.refused().map(why -> Json.object("message", words.say(why))),
        "result", result.map(CheckWork::figures),
        "failed", failed.map(words::say));
  }

  private static Map<String, Object> figures(MassCheck result) {
    return Json.object(
        "known_gf", gramForce(result.expectedNewtons()),
        "shown_gf", gramForce(result.measuredNewtons()),
        "error_percent", 100 * result.relativeError(),
        "limit_percent", 100 * result.limitNewtons() / result.expectedNewtons(),
        "within", result.passes());
  }

  private static double gramForce(double newtons) {
    return newtons / Force.NEWTONS_PER_GRAM_FORCE;
  }
}
