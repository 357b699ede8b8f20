package snick.conformance;

import static snick.conformance.Conversation.MILLI;

import java.util.List;
import snick.frame.message.Hello;
import snick.frame.message.MessageType;

/**
 * Whether a device takes the nearest of its rates, and its samples come at it.
 *
 * @param talk the line to the device
 * @param findings takes what is found
 */
record RateChecks(Conversation talk, Findings findings) {
  private static final long SAMPLES_WAIT_NANOS = 3_000 * MILLI;
  private static final int BATCHES = 4;

  /** Asked for beside the rate in force: within 10 % of it, and beyond. */
  private static final int NEAR_PER_CENT = 105;

  private static final int TOLERANCE_PER_CENT = 10;

  /** Asks for a rate that is near the one in force; another of its rates may be nearer. */
  void nearest(Hello hello) {
    long inForce = hello.nominalRateMilliHertz();
    long asked = inForce * NEAR_PER_CENT / 100;
    Reply reply = talk.ask(MessageType.SET_RATE, asked);
    boolean met =
        reply.accepted()
            && Math.abs(reply.value() - asked)
                <= Math.min(asked - inForce, asked * TOLERANCE_PER_CENT / 100);
    findings.judge(Condition.RATE, met, asked + " mHz asked: " + reply.words());
    if (met && reply.value() != inForce) {
      talk.ask(MessageType.SET_RATE, inForce);
    }
  }

  /** Listens to the samples that follow a change of rate. */
  void follows(long milliHertz) {
    int from = talk.heard().size();
    talk.listen(
        SAMPLES_WAIT_NANOS,
        () -> talk.heard().since(from, Arrival.Samples.class).size() >= BATCHES);
    List<Arrival.Samples> batches = talk.heard().since(from, Arrival.Samples.class);
    StreamChecks.Steps steps = StreamChecks.Steps.of(batches);
    findings.judge(Condition.RATE, steps.near(milliHertz), steps.words(milliHertz));
  }
}
