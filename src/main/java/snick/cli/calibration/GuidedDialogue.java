package snick.cli.calibration;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import snick.cli.bench.BenchFeed;
import snick.cli.bench.Operator;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.force.reading.CalibrationPlan;
import snick.force.reading.GuidedCalibration;
import snick.force.reading.GuidedState;
import snick.force.reading.HeldReading;
import snick.force.reading.Steadiness;
import snick.phrase.Phrase;
import snick.phrase.Words;

/**
 * Leads an operator through a calibration: asks, shows the reading settle, says what came of it.
 */
final class GuidedDialogue {
  private static final long REDRAW_NANOS = TimeUnit.MILLISECONDS.toNanos(200);
  private static final long LINE_NANOS = TimeUnit.SECONDS.toNanos(2);

  private final BenchFeed bench;
  private final Operator operator;
  private final GuidedCalibration guide;
  private final Consumer<GuidedState> keep;
  private final PrintWriter out;
  private final boolean redraw;
  private GuidedState known;
  private boolean asked;
  private int shownLetters;
  private long shownNanos = System.nanoTime();

  /**
   * A dialogue that begins, or goes on, at {@code state}.
   *
   * @param keep takes every state reached
   * @param redraw whether a person's terminal shows the settling on one line
   */
  GuidedDialogue(
      BenchFeed bench,
      Operator operator,
      GuidedState state,
      Consumer<GuidedState> keep,
      PrintWriter out,
      boolean redraw) {
    this.bench = bench;
    this.operator = operator;
    this.guide = new GuidedCalibration(state, Steadiness.USUAL);
    this.known = state;
    this.keep = keep;
    this.out = out;
    this.redraw = redraw;
    bench.to(guide);
  }

  /** Goes on until all steps are done, or the operator stops: whether all are done. */
  boolean run() {
    boolean more = true;
    while (more && guide.phase() != GuidedCalibration.Phase.FINISHED) {
      if (guide.phase() == GuidedCalibration.Phase.WAITING_FOR_PERSON && stopped()) {
        return false;
      }
      more = bench.turn();
      requireSameSetting();
      follow();
    }
    return guide.phase() == GuidedCalibration.Phase.FINISHED;
  }

  /** How far it has come. */
  GuidedState state() {
    return guide.state();
  }

  private boolean stopped() {
    if (!asked) {
      asked = true;
      guide.refused().ifPresent(this::say);
      operator.ask(guide.step().orElseThrow());
    }
    Operator.Word word = operator.word();
    if (word == Operator.Word.DONE) {
      asked = false;
      guide.confirm();
    }
    return word == Operator.Word.STOP;
  }

  private void say(GuidedCalibration.Refused refused) {
    Words words = Words.english();
    line("  Not counted (" + refused.cause().word() + "): " + words.say(refused.message()) + ".");
    line("  Remedy: " + words.say(refused.remedy()) + ".");
  }

  private void requireSameSetting() {
    List<Phrase> differences = known.setting().differences(bench.setting());
    if (!differences.isEmpty()) {
      throw Refusal.unavailable(
          differences.stream().map(Words.english()::say).collect(Collectors.joining("; "))
              + "; set the rig as it was and go on with --resume");
    }
  }

  private void follow() {
    GuidedState now = guide.state();
    if (!now.equals(known)) {
      report(now);
      known = now;
      keep.accept(now);
    } else if (guide.phase() == GuidedCalibration.Phase.SETTLING) {
      showSettling(guide.settling());
    } else if (guide.phase() == GuidedCalibration.Phase.RESTING && due(LINE_NANOS)) {
      show("  resting: keep your hands away");
    }
  }

  private void report(GuidedState now) {
    if (now.done().size() > known.done().size()) {
      accepted("zero", now.done().get(now.done().size() - 1).zeroAfter());
      line("  Run " + now.done().size() + " of " + now.plan().runs() + " is complete.");
    } else if (now.current().size() > known.current().size()) {
      accepted(
          name(now.plan().runSteps().get(now.current().size() - 1)),
          now.current().get(now.current().size() - 1));
    } else if (now.hold().size() > known.hold().size()) {
      accepted("hold, last of " + now.hold().size(), now.hold().get(now.hold().size() - 1));
    }
  }

  private static String name(CalibrationPlan.Step step) {
    return step instanceof CalibrationPlan.Step.PutOn on
        ? on.load().name() + " " + on.direction().word()
        : "zero";
  }

  private void accepted(String what, HeldReading reading) {
    line(
        String.format(
            Locale.ROOT,
            "  %-14s %12.1f counts, SD %.1f over %d samples",
            what,
            reading.meanCounts(),
            reading.sdCounts(),
            reading.samples()));
  }

  private void showSettling(Steadiness.Settling settling) {
    if (due(redraw ? REDRAW_NANOS : LINE_NANOS)) {
      show(settling.filledSeconds() > 0 ? settled(settling) : "  settling: waiting for readings");
    }
  }

  private static String settled(Steadiness.Settling settling) {
    return String.format(
        Locale.ROOT,
        "  settling: drift %.0f of %.0f counts, scatter %.0f of %.0f, over %.1f s",
        Math.abs(settling.driftCounts()),
        settling.driftLimitCounts(),
        settling.scatterCounts(),
        settling.scatterLimitCounts(),
        settling.filledSeconds());
  }

  private boolean due(long everyNanos) {
    long now = System.nanoTime();
    if (now - shownNanos < everyNanos) {
      return false;
    }
    shownNanos = now;
    return true;
  }

  private void show(String text) {
    if (redraw) {
      out.print("\r" + over(text));
    } else {
      out.println(text);
    }
    out.flush();
  }

  private void line(String text) {
    String inert = PlainText.inert(text);
    out.println(redraw ? "\r" + over(inert) : inert);
    out.flush();
  }

  /** Long enough to leave nothing of the line that is written over. */
  private String over(String text) {
    String padded = text + " ".repeat(Math.max(0, shownLetters - text.length()));
    shownLetters = text.length();
    return padded;
  }
}
