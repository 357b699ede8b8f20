package snick.conformance;

import snick.quantity.Worded;

/**
 * What was found out about one condition.
 *
 * @param condition the condition
 * @param grade whether it is met
 * @param detail what was measured, or why it was not tried; may hold text of the device
 */
public record Assessment(Condition condition, Grade grade, String detail) {
  /** Whether a condition is met. */
  public enum Grade implements Worded {
    PASSED,
    FAILED,
    /** The device cannot be brought to show it. */
    NOT_TRIED
  }
}
