package snick.cli;

import java.util.concurrent.CompletableFuture;
import snick.force.CalibrationPlan;
import snick.force.Load;
import snick.quantity.Mass;
import snick.virtualrig.Action;
import snick.virtualrig.Script;
import snick.virtualrig.ServedRig;

/** Hangs masses on the virtual rig as asked. */
final class VirtualOperator implements Operator {
  private final ServedRig rig;
  private CompletableFuture<Void> doing = CompletableFuture.completedFuture(null);

  VirtualOperator(ServedRig rig) {
    this.rig = rig;
  }

  @Override
  public void ask(CalibrationPlan.Step step) {
    if (step instanceof CalibrationPlan.Step.PutOn on) {
      hang(on.load());
    } else if (step instanceof CalibrationPlan.Step.Rest rest) {
      hang(rest.load());
    } else {
      doing = rig.perform(Action.Hang.nothing());
    }
  }

  private void hang(Load load) {
    doing = rig.perform(new Action.Hang(new Mass(load.nominalGrams() / 1000)));
  }

  @Override
  public void askToCut() {
    doing = rig.perform(Script.of(new Action.Rest(1), new Action.CutThread()));
  }

  @Override
  public Word word() {
    return doing.isDone() ? Word.DONE : Word.NONE;
  }
}
