package snick.conformance;

import java.util.List;
import java.util.Optional;
import snick.frame.message.Answer;

/**
 * The answer to a command, and what the device said between the two.
 *
 * @param answer the answer; empty if none came
 * @param before messages after the command was sent and before the answer; none if none came
 * @param sentNanos host time at which the command was sent, ns
 * @param roundTripNanos host time from command to answer, ns; the whole wait if none came
 */
record Reply(Optional<Answer> answer, List<Arrival> before, long sentNanos, long roundTripNanos) {
  <E extends Arrival> List<E> before(Class<E> kind) {
    return before.stream().filter(kind::isInstance).map(kind::cast).toList();
  }

  boolean came() {
    return answer.isPresent();
  }

  boolean accepted() {
    return answer.filter(a -> a.result() == Answer.Result.ACCEPTED).isPresent();
  }

  /** Whether it came with this result and value. */
  boolean says(Answer.Result result, long value) {
    return answer.filter(a -> a.result() == result && a.value() == value).isPresent();
  }

  /**
   * Value of an answer that came.
   *
   * @throws java.util.NoSuchElementException if none came
   */
  long value() {
    return answer.orElseThrow().value();
  }

  /**
   * Device clock when the command came in, µs, of an answer that came.
   *
   * @throws java.util.NoSuchElementException if none came
   */
  long deviceMicros() {
    return answer.orElseThrow().deviceMicros();
  }

  /** For a person: result and value. */
  String words() {
    return answer.map(a -> a.result() + " " + a.value()).orElse("no answer");
  }
}
