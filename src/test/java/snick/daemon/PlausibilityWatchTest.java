package snick.daemon;

import static org.assertj.core.api.Assertions.assertThat;
import static snick.InEnglish.told;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import snick.phrase.Phrase;
import snick.sample.StreamFacts;

class PlausibilityWatchTest {
  private static final long TENTH_NANOS = 100_000_000;

  private final PlausibilityWatch watch = new PlausibilityWatch(80);
  private final List<String> said = new ArrayList<>();

  private static StreamFacts facts(long samples, long overrange, long restarts, long timeless) {
    return new StreamFacts(
        samples, overrange, new StreamFacts.Lost(0, 0), restarts, 0, 0, 0, timeless);
  }

  private void say(List<Phrase> doubts) {
    doubts.forEach(doubt -> said.add(told(doubt)));
  }

  /** Ten looks a second, for so many seconds, at 80 readings a second. */
  private void pass(double seconds, double deviceSecondsPerSecond, boolean rail, boolean timeless) {
    for (int i = 0; i <= seconds * 10; i++) {
      say(
          watch.look(
              i * TENTH_NANOS,
              Math.round(i * TENTH_NANOS * deviceSecondsPerSecond),
              facts(8L * i, rail ? 8L * i : 0, 0, timeless ? 8L * i : 0)));
    }
  }

  @Test
  void aClockThatIsNearlyRightIsNotDoubted() {
    pass(60, 1.05, false, false);
    assertThat(said).isEmpty();
  }

  @Test
  void millisecondsTakenForMicrosecondsAreSaidOnce() {
    pass(60, 1e-3, false, false);
    assertThat(said).singleElement().asString().contains("--columns time_ms,counts");
  }

  @Test
  void aRateThatIsNearlyTheOneAssumedIsNotDoubted() {
    pass(10, 87.0 / 80, false, true);
    assertThat(said).isEmpty();
  }

  @Test
  void aRateThatIsFarOffIsSaid() {
    pass(10, 10.0 / 80, false, true);
    assertThat(said).singleElement().asString().contains("about 10.0 a second", "--rate");
  }

  @Test
  void threeSecondsAtARailAreSaid() {
    pass(2.9, 1, true, false);
    assertThat(said).isEmpty();
    pass(4, 1, true, false);
    assertThat(said).singleElement().asString().contains("offset24");
  }

  @Test
  void restartsEveryFewSecondsAreSaidAsAMisreading() {
    for (int second = 0; second < 30; second += 4) {
      say(watch.look(second * 1_000_000_000L, second, facts(second, 0, second / 4, 0)));
    }
    assertThat(said).singleElement().asString().contains("--columns counts,-");
  }

  @Test
  void oneRestartIsARestart() {
    say(watch.look(0, 0, facts(0, 0, 0, 0)));
    say(watch.look(1_000_000_000L, 1, facts(80, 0, 1, 0)));
    assertThat(said).isEmpty();
  }
}
