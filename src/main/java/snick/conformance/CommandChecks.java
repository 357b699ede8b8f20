package snick.conformance;

import static snick.conformance.Conversation.MILLI;

import java.util.List;
import java.util.Optional;
import snick.frame.message.Answer;
import snick.frame.message.Hello;
import snick.frame.message.MessageType;
import snick.frame.message.Status;

/**
 * Commands that a device knows.
 *
 * @param talk the line to the device
 * @param findings takes what is found
 */
record CommandChecks(Conversation talk, Findings findings) {
  private static final long TOKEN = 3_735_928_559L;
  private static final long AFTER_STOP_NANOS = 400 * MILLI;
  private static final long STATUS_WAIT_NANOS = 2_000 * MILLI;
  private static final long SAMPLES_WAIT_NANOS = 2_000 * MILLI;
  private static final int UNLIKELY_GAIN = 65_535;
  private static final long UNLIKELY_MILLI_HERTZ = 1;
  private static final List<Integer> GAINS = List.of(64, 128, 32);
  private static final List<Long> RATES = List.of(10_000L, 80_000L, 320_000L);

  void ping() {
    Reply first = talk.ask(MessageType.PING, TOKEN);
    Reply second = talk.ask(MessageType.PING, 0);
    boolean met =
        first.says(Answer.Result.ACCEPTED, TOKEN)
            && second.says(Answer.Result.ACCEPTED, 0)
            && (int) (second.deviceMicros() - first.deviceMicros()) > 0;
    findings.judge(Condition.PING, met, first.words() + ", " + second.words());
  }

  /** Stop a streaming device, then start it again. */
  void stopAndStart() {
    stop();
    repeat(MessageType.STOP, "stop while idle");
    start();
    repeat(MessageType.START, "start while streaming");
  }

  private void stop() {
    Reply reply = talk.ask(MessageType.STOP);
    int after = talk.heard().size();
    talk.listen(AFTER_STOP_NANOS);
    talk.listen(
        STATUS_WAIT_NANOS, () -> !talk.heard().since(after, Arrival.Reported.class).isEmpty());
    int late = talk.heard().since(after, Arrival.Samples.class).size();
    List<Arrival.Reported> reports = talk.heard().since(after, Arrival.Reported.class);
    boolean idle =
        !reports.isEmpty() && reports.get(reports.size() - 1).status().state() == Status.State.IDLE;
    boolean numbered =
        reply.accepted() && numbersOn(talk.heard().since(0, Arrival.Samples.class), reply);
    findings.judge(
        Condition.STOP,
        late == 0 && idle && numbered,
        "%s, %s batches after it, status %s%s"
            .formatted(
                reply.words(),
                late,
                idle ? "IDLE" : "not IDLE",
                numbered ? "" : ", not the number after the last sample"));
  }

  private static boolean numbersOn(List<Arrival.Samples> batches, Reply reply) {
    return batches.isEmpty() || batches.get(batches.size() - 1).nextSequence() == reply.value();
  }

  private void start() {
    int from = talk.heard().size();
    Reply reply = talk.ask(MessageType.START);
    talk.listen(
        SAMPLES_WAIT_NANOS, () -> !talk.heard().since(from, Arrival.Samples.class).isEmpty());
    List<Arrival.Samples> batches = talk.heard().since(from, Arrival.Samples.class);
    boolean met =
        !batches.isEmpty() && reply.says(Answer.Result.ACCEPTED, batches.get(0).sequence());
    findings.judge(
        Condition.START,
        met,
        reply.words()
            + ", "
            + (batches.isEmpty() ? "no samples" : "first sample " + batches.get(0).sequence()));
  }

  private void repeat(MessageType command, String what) {
    Reply reply = talk.ask(command);
    findings.judge(Condition.REPEAT, reply.accepted(), what + ": " + reply.words());
  }

  /** Rates and gains of a device that said this hello last. */
  void settings(Hello hello) {
    inForce(
        talk.ask(MessageType.SET_RATE, hello.nominalRateMilliHertz()),
        hello.nominalRateMilliHertz(),
        "rate");
    inForce(talk.ask(MessageType.SET_GAIN, hello.gain()), hello.gain(), "gain");
    refused(
        talk.ask(MessageType.SET_RATE, UNLIKELY_MILLI_HERTZ),
        hello.nominalRateMilliHertz(),
        "1 mHz");
    refused(talk.ask(MessageType.SET_GAIN, UNLIKELY_GAIN), hello.gain(), "gain 65535");
    new RateChecks(talk, findings).nearest(hello);
    boolean gain = changeGain(hello);
    boolean rate = changeRate(hello);
    if (!gain && !rate) {
      findings.notTried(Condition.CHANGE, "it takes no other gain or rate that was tried");
    }
  }

  private void inForce(Reply reply, long value, String what) {
    boolean met =
        reply.says(Answer.Result.ACCEPTED, value)
            && reply.before(Arrival.SaidHello.class).isEmpty();
    findings.judge(Condition.IN_FORCE, met, what + ": " + reply.words());
  }

  private void refused(Reply reply, long inForce, String what) {
    findings.judge(
        Condition.REFUSAL,
        reply.says(Answer.Result.OUT_OF_RANGE, inForce),
        what + ": " + reply.words());
  }

  /** There while it streams, back while it is idle. */
  private boolean changeGain(Hello hello) {
    for (int gain : GAINS) {
      if (gain != hello.gain()) {
        Reply there = talk.ask(MessageType.SET_GAIN, gain);
        if (there.accepted()) {
          changed(there, gain, said(there).map(Hello::gain));
          talk.ask(MessageType.STOP);
          Reply back = talk.ask(MessageType.SET_GAIN, hello.gain());
          changed(back, hello.gain(), said(back).map(Hello::gain));
          talk.ask(MessageType.START);
          return true;
        }
      }
    }
    return false;
  }

  private boolean changeRate(Hello hello) {
    for (long rate : RATES) {
      if (rate != hello.nominalRateMilliHertz()) {
        Reply there = talk.ask(MessageType.SET_RATE, rate);
        if (there.accepted()) {
          Optional<Long> inForce = said(there).map(Hello::nominalRateMilliHertz);
          changed(there, there.value(), inForce);
          new RateChecks(talk, findings).follows(there.value());
          long before = hello.nominalRateMilliHertz();
          Reply back = talk.ask(MessageType.SET_RATE, before);
          changed(back, before, said(back).map(Hello::nominalRateMilliHertz));
          return true;
        }
      }
    }
    return false;
  }

  private static Optional<Hello> said(Reply reply) {
    List<Arrival.SaidHello> hellos = reply.before(Arrival.SaidHello.class);
    return hellos.size() == 1 ? Optional.of(hellos.get(0).hello()) : Optional.empty();
  }

  private void changed(Reply reply, long wanted, Optional<? extends Number> saidHello) {
    boolean met =
        reply.says(Answer.Result.ACCEPTED, wanted)
            && saidHello.isPresent()
            && saidHello.get().longValue() == wanted;
    findings.judge(
        Condition.CHANGE,
        met,
        reply.words()
            + ", "
            + saidHello.map(v -> "hello said " + v).orElse("not one hello before it"));
  }
}
