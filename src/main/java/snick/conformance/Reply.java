package snick.conformance;

import java.util.List;
import snick.frame.message.Answer;

/**
 * The answer to a command, and what the device said between the two.
 *
 * @param answer the answer
 * @param before messages after the command was sent and before the answer
 * @param sentNanos host time at which the command was sent, ns
 * @param roundTripNanos host time from command to answer, ns
 */
record Reply(Answer answer, List<Arrival> before, long sentNanos, long roundTripNanos) {
  <E extends Arrival> List<E> before(Class<E> kind) {
    return before.stream().filter(kind::isInstance).map(kind::cast).toList();
  }

  /** Whether the result and the value are these. */
  boolean says(Answer.Result result, long value) {
    return answer.result() == result && answer.value() == value;
  }

  /** For a person: result and value. */
  String words() {
    return answer.result() + " " + answer.value();
  }
}
