package snick.cli.verification;

import java.io.PrintWriter;
import java.util.OptionalDouble;
import snick.cli.bench.BenchFeed;
import snick.cli.bench.Operator;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.Refusal;
import snick.force.mass.Load;
import snick.force.reading.CalibrationPlan;
import snick.force.reading.Direction;
import snick.force.reading.HeldReading;
import snick.force.reading.Steadiness;
import snick.force.reading.SteadyReading;
import snick.phrase.Words;

/**
 * Reads the rig without load and under a load, each when steady.
 *
 * @param bench the rig
 * @param operator whoever hangs the masses
 * @param out takes what was read, for people
 */
record CheckMass(BenchFeed bench, Operator operator, PrintWriter out) {
  /**
   * Asks for {@code step} and waits for a steady reading.
   *
   * @param noiseCounts noise at rest, if it is known already
   * @throws Refusal if it does not come
   */
  HeldReading read(CalibrationPlan.Step step, OptionalDouble noiseCounts) {
    ask(step);
    SteadyReading steady = new SteadyReading(Steadiness.USUAL, noiseCounts);
    bench.to(steady);
    while (steady.reading().isEmpty()) {
      if (!bench.turn()) {
        throw Refusal.unavailable("the rig's data ended before the reading was steady");
      }
      steady
          .failure()
          .ifPresent(
              why -> {
                throw Refusal.unavailable(Words.english().say(why) + "; nothing is saved");
              });
    }
    HeldReading reading = steady.reading().get();
    out.println(
        "  %s counts, SD %s over %s samples"
            .formatted(
                Numbers.fixed(reading.meanCounts(), 1),
                Numbers.fixed(reading.sdCounts(), 1),
                reading.samples()));
    out.flush();
    return reading;
  }

  /**
   * Asks for {@code load} and waits for a steady reading that differs from {@code zero}.
   *
   * @throws Refusal if it does not come, or the reading is that of no load
   */
  HeldReading readUnder(Load load, HeldReading zero) {
    HeldReading loaded =
        read(
            new CalibrationPlan.Step.PutOn(load, Direction.UP), OptionalDouble.of(zero.sdCounts()));
    loaded
        .sameAs(zero)
        .ifPresent(
            why -> {
              throw Refusal.failed(
                  "%s; nothing is saved: hang %s and try again"
                      .formatted(Words.english().say(why), load.name()),
                  null);
            });
    return loaded;
  }

  /** Asks for {@code step} and waits until it is done. */
  void ask(CalibrationPlan.Step step) {
    operator.ask(step);
    await();
  }

  /** Asks to cut the thread and waits for the word. */
  void askToCut() {
    operator.askToCut();
    await();
  }

  private void await() {
    Operator.Word word = operator.word();
    while (word == Operator.Word.NONE) {
      bench.turn();
      word = operator.word();
    }
    if (word == Operator.Word.STOP) {
      throw Refusal.failed("stopped; nothing is saved", null);
    }
  }
}
