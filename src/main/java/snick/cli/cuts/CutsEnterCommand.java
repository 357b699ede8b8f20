package snick.cli.cuts;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import snick.cli.journal.Advice;
import snick.cli.journal.StageChoice;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedJournal;
import snick.cli.option.SessionChoice;
import snick.cli.option.TypedValues;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.WallTime;
import snick.cut.Cut;
import snick.cut.CutFigures;
import snick.cut.Outcome;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.force.budget.Calibration;
import snick.force.fit.ForceRange;
import snick.force.reading.RigSetting;
import snick.journal.CutPlacement;
import snick.journal.SessionLog;
import snick.journal.Stage;
import snick.quantity.Force;
import snick.quantity.SampleRate;
import snick.store.SessionEvidence;
import snick.store.record.CutForce;
import snick.store.record.NewCut;
import snick.store.record.Recording;
import snick.verdict.statistic.Readings;

/** Takes in forces that were read elsewhere. */
@Command(
    name = "enter",
    description = {
      "Put forces that were read elsewhere into the current stage, gf. They have no trace and no "
          + "uncertainty: each is stored as typed, in thousandths of a gf, under the rig 'typed in'."
    },
    footerHeading = "%nExample (invented):%n",
    footer = "  snick cuts enter 212,198.5,205")
final class CutsEnterCommand extends DataCommand implements Runnable {
  private static final String DEVICE = "typed in";
  private static final int DECIMALS = 3;
  private static final double COUNTS_PER_GRAM_FORCE = 1000;
  private static final double WIDEST_NEWTONS = 1e4;

  /** Bound to its device: else a rig without a calibration would be measured by it. */
  private static final Calibration AS_TYPED =
      Calibration.straightLine(
          Optional.of(new RigSetting(DEVICE, 1, new SampleRate(80), 1)),
          Instant.EPOCH,
          new Calibration.Line(COUNTS_PER_GRAM_FORCE / Force.NEWTONS_PER_GRAM_FORCE, 0, 0, 0),
          ForceRange.upToNewtons(WIDEST_NEWTONS));

  @Parameters(paramLabel = "GF,GF,...", description = "Forces, gf.")
  private String values;

  @Mixin private SessionChoice session;
  @Mixin private StageChoice stage;

  @Override
  public void run() {
    Readings typed = TypedValues.parse("typed values", values);
    requirePositive(typed);
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      SessionLog log = journal.log(session);
      Stage in = stage.in(log, Optional.empty());
      Instant now = OpenedJournal.now();
      requireRunning(log);
      enter(journal, log, in, typed.gramForce(), now);
      Advice.print(
          out(),
          data,
          SessionEvidence.read(journal.reader(), log.session().name()),
          journal.reader());
    }
  }

  private static void requirePositive(Readings typed) {
    for (double gramForce : typed.gramForce()) {
      if (!(gramForce > 0 && gramForce <= 1e6)) {
        throw Refusal.badInput(
            "a force of " + gramForce + " gf is outside 0 (excluded) to 1000000 gf");
      }
    }
  }

  private static void requireRunning(SessionLog log) {
    log.session()
        .closed()
        .ifPresent(
            at -> {
              throw Refusal.badInput(
                  "session '%s' was closed at %s: nothing was entered; begin another:"
                      + " snick session start",
                  log.session().name(), WallTime.of(at));
            });
  }

  private static void enter(
      OpenedJournal journal, SessionLog log, Stage in, double[] gramForce, Instant now) {
    journal.store().add(AS_TYPED, Optional.empty());
    long recording = journal.store().startRecording(recording(now));
    for (int i = 0; i < gramForce.length; i++) {
      long id = journal.store().append(cut(recording, i + 1, gramForce[i], now));
      journal
          .writer()
          .add(log.session().name(), new CutPlacement(now, in.name(), id, OptionalDouble.empty()));
    }
  }

  private static Recording recording(Instant now) {
    return new Recording(
        DEVICE,
        "",
        DEVICE,
        Recording.Form.TEXT,
        now,
        OptionalInt.empty(),
        Optional.empty(),
        DECIMALS);
  }

  private static NewCut cut(long recording, int number, double gramForce, Instant now) {
    double counts = Math.rint(gramForce * COUNTS_PER_GRAM_FORCE);
    Cut cut =
        new Cut(
            number,
            CutFigures.withoutTrace(Outcome.SEVERED, Optional.of(new Peak(counts, counts, 0)), 0),
            Trace.none());
    CutForce force =
        new CutForce(AS_TYPED.derive(counts, 0), Force.ofGramForce(counts / COUNTS_PER_GRAM_FORCE));
    return NewCut.of(recording, now, cut).with(force);
  }
}
