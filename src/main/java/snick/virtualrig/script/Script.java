package snick.virtualrig.script;

import java.util.ArrayList;
import java.util.List;

/**
 * Actions in order of time. Immutable.
 *
 * @param actions the actions, first to last
 */
public record Script(List<Action> actions) {
  public Script {
    actions = List.copyOf(actions);
  }

  /** These actions in this order. */
  public static Script of(Action... actions) {
    return new Script(List.of(actions));
  }

  /** This script and after it the other. */
  public Script then(Script other) {
    List<Action> both = new ArrayList<>(actions);
    both.addAll(other.actions);
    return new Script(both);
  }

  /** This script and after it one more action. */
  public Script then(Action action) {
    return then(of(action));
  }

  /** This script {@code times} times over. */
  public Script times(int times) {
    List<Action> all = new ArrayList<>();
    for (int i = 0; i < times; i++) {
      all.addAll(actions);
    }
    return new Script(all);
  }
}
