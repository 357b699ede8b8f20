package snick.virtualrig;

import java.util.ArrayList;
import java.util.List;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;

/**
 * Actions in order of time, and what goes wrong between them. Immutable.
 *
 * @param actions the actions
 * @param faults what goes wrong, first to last
 */
public record FaultyScript(Script actions, List<Between> faults) {
  /**
   * A fault.
   *
   * @param after so many actions are over when it begins
   */
  public record Between(int after, Fault fault) {}

  public FaultyScript {
    faults = List.copyOf(faults);
  }

  /** A script in which nothing goes wrong. */
  public FaultyScript(Script actions) {
    this(actions, List.of());
  }

  /** This script and after it some actions. */
  public FaultyScript then(Action... more) {
    return new FaultyScript(actions.then(Script.of(more)), faults);
  }

  /** This script, after which something goes wrong. */
  public FaultyScript thenGoWrong(Fault fault) {
    List<Between> all = new ArrayList<>(faults);
    all.add(new Between(actions.actions().size(), fault));
    return new FaultyScript(actions, all);
  }
}
