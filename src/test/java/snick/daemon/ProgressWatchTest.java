package snick.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class ProgressWatchTest {
  private final Rounds reader = new Rounds();
  private final Rounds keeper = new Rounds();
  private final ProgressWatch watch = new ProgressWatch(List.of(reader, keeper));

  @Test
  void nothingHasGoneAtFirst() {
    assertThat(watch.allWent()).isFalse();
  }

  @Test
  void everyLoopMustGo() {
    reader.went();
    assertThat(watch.allWent()).isFalse();
    keeper.went();
    assertThat(watch.allWent()).isTrue();
    assertThat(watch.allWent()).as("once said, it must happen again").isFalse();
  }

  @Test
  void whatWentBeforeALookCountsAtTheNext() {
    reader.went();
    keeper.went();
    assertThat(watch.allWent()).isTrue();

    reader.went();
    assertThat(watch.allWent()).isFalse();
    keeper.went();
    assertThat(watch.allWent()).isTrue();
  }

  @Test
  void aLoopThatEndedAsItShouldIsNotWaitedFor() {
    reader.end();
    keeper.went();
    assertThat(watch.allWent()).isTrue();
    assertThat(watch.allWent()).isFalse();
    keeper.end();
    assertThat(watch.allWent()).isTrue();
  }
}
