package snick.cli.bench;

import java.util.OptionalLong;
import java.util.concurrent.CompletableFuture;
import java.util.function.LongSupplier;
import snick.force.mass.Load;
import snick.force.reading.CalibrationPlan;
import snick.quantity.Mass;
import snick.virtualrig.ServedRig;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;

/**
 * Hangs masses on the virtual rig as asked. A step is done once the samples that were on their way
 * meanwhile have arrived: those that follow show its outcome.
 */
final class VirtualOperator implements Operator {
  private final ServedRig rig;
  private final LongSupplier arrivedNanos;
  private CompletableFuture<Void> doing = CompletableFuture.completedFuture(null);
  private OptionalLong doneNanos = OptionalLong.of(0);

  /**
   * @param arrivedNanos device time of the newest sample that arrived, ns since power-on
   */
  VirtualOperator(ServedRig rig, LongSupplier arrivedNanos) {
    this.rig = rig;
    this.arrivedNanos = arrivedNanos;
  }

  @Override
  public void ask(CalibrationPlan.Step step) {
    if (step instanceof CalibrationPlan.Step.PutOn on) {
      hang(on.load());
    } else if (step instanceof CalibrationPlan.Step.Rest rest) {
      hang(rest.load());
    } else {
      perform(Script.of(Action.Hang.nothing()));
    }
  }

  private void hang(Load load) {
    perform(Script.of(new Action.Hang(new Mass(load.nominalGrams() / 1000))));
  }

  @Override
  public void askToCut() {
    perform(Script.of(new Action.Rest(1), new Action.CutThread()));
  }

  private void perform(Script script) {
    doneNanos = OptionalLong.empty();
    doing = rig.perform(script);
  }

  @Override
  public Word word() {
    if (doneNanos.isEmpty() && doing.isDone()) {
      doneNanos = OptionalLong.of(rig.sent().trueNanos());
    }
    boolean shown = doneNanos.isPresent() && arrivedNanos.getAsLong() >= doneNanos.getAsLong();
    return shown ? Word.DONE : Word.NONE;
  }
}
