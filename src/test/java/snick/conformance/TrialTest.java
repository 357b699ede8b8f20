package snick.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import snick.conformance.Assessment.Grade;
import snick.frame.message.Answer;
import snick.frame.message.Hello;
import snick.frame.message.SampleBatch;
import snick.frame.message.Status;

/** The trial on the virtual rig, sound and spoilt: every condition can be met and can be missed. */
class TrialTest {
  private static final int PING = 0x86;

  @Test
  void soundRigMeetsEveryCondition() {
    List<Assessment> all = Trial.of(new TiltedRig());
    assertThat(all).extracting(Assessment::condition).containsExactly(Condition.values());
    assertThat(all).allSatisfy(each -> assertThat(each.grade()).isEqualTo(Grade.PASSED));
  }

  @Test
  void silentDeviceFailsOneAndTheRestIsNotTried() {
    TiltedRig rig = new TiltedRig();
    rig.silentAboutSamples = true;
    rig.statuses = status -> Optional.empty();
    rig.deaf = bytes -> true;
    List<Assessment> all = Trial.of(rig);
    assertThat(all.get(0).grade()).isEqualTo(Grade.FAILED);
    assertThat(all.subList(1, all.size()))
        .allSatisfy(each -> assertThat(each.grade()).isEqualTo(Grade.NOT_TRIED));
  }

  @Test
  void deviceOfOneRateAndGainIsNotTriedForChange() {
    TiltedRig rig = new TiltedRig();
    rig.answers =
        answer ->
            switch (answer.command()) {
              case 0x84 -> only(80_000, answer);
              case 0x85 -> only(128, answer);
              default -> answer;
            };
    Assessment change = find(Trial.of(rig), Condition.CHANGE);
    assertThat(change.grade()).isEqualTo(Grade.NOT_TRIED);
  }

  private static Answer only(long inForce, Answer answer) {
    return answer.value() == inForce
        ? answer
        : value(result(answer, Answer.Result.OUT_OF_RANGE), inForce);
  }

  @TestFactory
  Stream<DynamicTest> everyConditionCanBeMissed() {
    return Stream.of(
        missed(Condition.HELLO, rig -> rig.answers = onType(0x81, a -> value(a, 2))),
        missed(Condition.PING, rig -> rig.answers = onType(PING, a -> value(a, a.value() ^ 1))),
        missed(Condition.ANSWER_TIME, rig -> rig.hostPace = 12),
        missed(Condition.ANSWER_ONCE, rig -> rig.answerCopies = 2),
        missed(Condition.BURST, rig -> rig.answers = onType(PING, a -> tag(a, a.tag() & ~1))),
        missed(Condition.STATUS, rig -> rig.statuses = everySecond()),
        missed(Condition.SEQUENCE, rig -> rig.renumbering = SampleBatch::sequence),
        missed(Condition.BATCH, rig -> rig.hellos = TrialTest::slow),
        missed(Condition.SPACING, rig -> rig.stretch = 1.3),
        missed(Condition.STOP, rig -> rig.answers = onType(0x83, a -> value(a, a.value() + 1))),
        missed(Condition.START, rig -> rig.answers = onType(0x82, a -> value(a, a.value() + 1))),
        missed(
            Condition.REPEAT,
            rig -> rig.answers = onType(0x82, a -> result(a, Answer.Result.NOT_POSSIBLE_NOW))),
        missed(Condition.IN_FORCE, rig -> rig.answers = onType(0x85, a -> value(a, 1))),
        missed(
            Condition.REFUSAL,
            rig -> rig.answers = onType(0x84, a -> result(a, Answer.Result.ACCEPTED))),
        missed(Condition.CHANGE, rig -> rig.helloCopies = 2),
        missed(
            Condition.RATE,
            rig -> rig.answers = onType(0x84, a -> result(a, Answer.Result.OUT_OF_RANGE))),
        missed(
            Condition.UNKNOWN,
            rig -> rig.answers = onType(0xB0, a -> result(a, Answer.Result.MALFORMED))),
        missed(
            Condition.MALFORMED,
            rig -> rig.answers = onType(0x84, a -> result(a, Answer.Result.OUT_OF_RANGE))),
        missed(Condition.GARBAGE, rig -> rig.deaf = afterGarbage()),
        missed(Condition.CLOCK, rig -> rig.hostPace = 1.02),
        missed(Condition.FRAMES, rig -> rig.spoilsStatus = true));
  }

  private static DynamicTest missed(Condition condition, Consumer<TiltedRig> tilt) {
    return DynamicTest.dynamicTest(
        condition.id(),
        () -> {
          TiltedRig rig = new TiltedRig();
          tilt.accept(rig);
          assertThat(find(Trial.of(rig), condition).grade()).isEqualTo(Grade.FAILED);
        });
  }

  @Test
  void aRateThatIsSaidButNotConvertedAtIsMissed() {
    TiltedRig rig = new TiltedRig();
    rig.hellos =
        hello -> {
          rig.stretch = hello.nominalRateMilliHertz() == 80_000 ? 1 : 1.5;
          return hello;
        };
    List<Assessment> all = Trial.of(rig);
    assertThat(find(all, Condition.SPACING).grade()).isEqualTo(Grade.PASSED);
    assertThat(find(all, Condition.RATE).grade()).isEqualTo(Grade.FAILED);
  }

  /** The page: a change while idle says hello all the same. */
  @Test
  void helloThatIsLeftOutWhileIdleIsMissed() {
    TiltedRig rig = new TiltedRig();
    boolean[] idle = new boolean[1];
    rig.answers =
        answer -> {
          idle[0] = answer.command() == 0x83 || (idle[0] && answer.command() != 0x82);
          rig.helloCopies = idle[0] ? 0 : 1;
          return answer;
        };
    assertThat(find(Trial.of(rig), Condition.CHANGE).grade()).isEqualTo(Grade.FAILED);
  }

  /** A device that answers what it should drop. */
  @Test
  void answerToDamageIsMissed() {
    TiltedRig rig = new TiltedRig();
    rig.deaf =
        bytes -> {
          if (bytes[2] == 0x05 || bytes[2] == 0x01) {
            rig.answer(new Answer(5, 0, Answer.Result.UNKNOWN_COMMAND, 0, rig.rigMicros()));
          }
          return false;
        };
    assertThat(find(Trial.of(rig), Condition.DAMAGE).grade()).isEqualTo(Grade.FAILED);
  }

  private static Assessment find(List<Assessment> all, Condition condition) {
    return all.stream().filter(each -> each.condition() == condition).findFirst().orElseThrow();
  }

  private static UnaryOperator<Answer> onType(int type, UnaryOperator<Answer> change) {
    return answer -> answer.command() == type ? change.apply(answer) : answer;
  }

  private static Answer value(Answer a, long value) {
    return new Answer(a.command(), a.tag(), a.result(), value, a.deviceMicros());
  }

  private static Answer tag(Answer a, int tag) {
    return new Answer(a.command(), tag, a.result(), a.value(), a.deviceMicros());
  }

  private static Answer result(Answer a, Answer.Result result) {
    return new Answer(a.command(), a.tag(), result, a.value(), a.deviceMicros());
  }

  private static Function<Status, Optional<Status>> everySecond() {
    boolean[] odd = new boolean[1];
    return status -> {
      odd[0] = !odd[0];
      return odd[0] ? Optional.of(status) : Optional.empty();
    };
  }

  private static Hello slow(Hello h) {
    return new Hello(
        h.protocolVersion(),
        h.deviceId(),
        h.firmware(),
        h.converterBits(),
        h.gain(),
        39_000,
        h.inputRangeNanoVolts());
  }

  private static Function<byte[], Boolean> afterGarbage() {
    boolean[] garbageCame = new boolean[1];
    return bytes -> {
      boolean garbage = bytes.length > 30;
      boolean first = garbageCame[0] && !garbage;
      garbageCame[0] = garbage;
      return first;
    };
  }
}
