package snick.conformance;

import snick.frame.message.Answer;
import snick.frame.message.Hello;
import snick.frame.message.Status;

/** One message of the device, with the host's time of its arrival. */
sealed interface Arrival {
  record SaidHello(long nanos, Hello hello) implements Arrival {}

  record Samples(long nanos, long sequence, long firstMicros, long spanMicros, int n)
      implements Arrival {
    private static final long MASK_32 = 0xFFFF_FFFFL;

    long nextSequence() {
      return (sequence + n) & MASK_32;
    }

    long lastMicros() {
      return (firstMicros + spanMicros) & MASK_32;
    }
  }

  record Reported(long nanos, Status status) implements Arrival {}

  record Answered(long nanos, Answer answer) implements Arrival {}
}
