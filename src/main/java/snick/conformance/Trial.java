package snick.conformance;

import static snick.conformance.Conversation.MILLI;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import snick.frame.message.Answer;
import snick.frame.message.Hello;
import snick.frame.message.MessageType;
import snick.frame.message.Tally;

/**
 * Tries a device against firmware-protocol.md, condition by condition: about 15 s. Leaves it
 * streaming, with the rate and gain it had. No clock and no port of its own; one thread.
 */
public final class Trial {
  private static final long FIRST_FRAME_WAIT_NANOS = 5_000 * MILLI;
  private static final long HELLO_WAIT_NANOS = 300 * MILLI;
  private static final int TRIES = 3;
  private static final long ANSWER_LIMIT_NANOS = 100 * MILLI;

  /** The host may be late itself: so many answers in ten must be in time. */
  private static final int IN_TIME_OF_TEN = 9;

  private final Conversation talk;
  private final Findings findings = new Findings();

  private Trial(Line line) {
    talk = new Conversation(line);
  }

  /** Try the device on this line; every condition, in order. */
  public static List<Assessment> of(Line line) {
    Trial trial = new Trial(line);
    return trial.run();
  }

  private List<Assessment> run() {
    talk.listen(FIRST_FRAME_WAIT_NANOS, () -> talk.heard().size() > 0);
    talk.listen(HELLO_WAIT_NANOS);
    Optional<Hello> hello = hello();
    if (hello.isEmpty()) {
      return findings.all("the device did not say hello");
    }
    tryAll(hello.get());
    return findings.all("not reached");
  }

  private Optional<Hello> hello() {
    Reply reply = talk.ask(MessageType.ASK_HELLO);
    for (int i = 1; i < TRIES && !reply.came(); i++) {
      reply = talk.ask(MessageType.ASK_HELLO);
    }
    List<Arrival.SaidHello> hellos = reply.before(Arrival.SaidHello.class);
    Optional<Hello> hello =
        hellos.isEmpty() ? Optional.empty() : Optional.of(hellos.get(hellos.size() - 1).hello());
    boolean met =
        hello.isPresent() && reply.says(Answer.Result.ACCEPTED, hello.get().protocolVersion());
    findings.judge(
        Condition.HELLO,
        met,
        hello
            .map(
                h ->
                    "%s, device %s, version %s"
                        .formatted(h.firmware(), h.deviceIdText(), h.protocolVersion()))
            .orElse("no hello"));
    return hello;
  }

  private void tryAll(Hello hello) {
    CommandChecks commands = new CommandChecks(talk, findings);
    RobustnessChecks robustness = new RobustnessChecks(talk, findings);
    ClockCheck clock = new ClockCheck(talk, findings);
    clock.begin();
    talk.ask(MessageType.START);
    new StreamChecks(talk, findings).check(hello);
    commands.ping();
    commands.stopAndStart();
    commands.settings(hello);
    robustness.unknownTypes();
    robustness.wrongLengths();
    robustness.damage();
    robustness.burst();
    robustness.garbage();
    clock.end();
    answers();
    frames();
  }

  private void answers() {
    List<Long> roundTrips = talk.roundTripsNanos().stream().sorted().toList();
    long inTime = roundTrips.stream().filter(nanos -> nanos <= ANSWER_LIMIT_NANOS).count();
    long median = roundTrips.get(roundTrips.size() / 2);
    long last = roundTrips.get(roundTrips.size() - 1);
    findings.judge(
        Condition.ANSWER_TIME,
        inTime * 10 >= (long) roundTrips.size() * IN_TIME_OF_TEN,
        String.format(
            Locale.ROOT,
            "median %.1f ms, longest %.1f ms, %d of %d in time",
            median / 1e6,
            last / 1e6,
            inTime,
            roundTrips.size()));
    findings.judge(
        Condition.ANSWER_ONCE,
        talk.unanswered() == 0 && talk.surplusAnswers() == 0,
        talk.unanswered() + " without an answer, " + talk.surplusAnswers() + " answers too many");
  }

  private void frames() {
    Tally tally = talk.tally();
    long bad = tally.thrownAway().damaged() + tally.thrownAway().unknownTypes();
    boolean firstMayBeCut = bad <= 1;
    findings.judge(
        Condition.FRAMES,
        firstMayBeCut,
        tally.goodFrames() + " good, " + bad + " bad (the first may be cut)");
  }
}
