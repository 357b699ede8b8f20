package snick.view.http;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(30)
class EventHubTest {
  private static final Instant STARTED = Instant.parse("2026-05-04T12:00:00Z");

  private final EventHub hub =
      new EventHub(
          STARTED, () -> List.of(new ServerSentEvent(ServerSentEvent.Kind.BENCH, "{\"now\":1}")));

  @Test
  void greetsWithThePresentState() throws Exception {
    Viewer viewer = hub.admit(Optional.empty()).orElseThrow();
    assertThat(read(viewer, 1)).isEqualTo("retry: 1000\n\nevent: bench\ndata: {\"now\":1}\n\n");
  }

  @Test
  void givesOneWhoComesBackTheCutsItMissed() throws Exception {
    cuts(3);
    String epoch = Long.toString(STARTED.toEpochMilli(), 36);
    Viewer back = hub.admit(Optional.of(epoch + "-1")).orElseThrow();
    assertThat(read(back, 3))
        .doesNotContain("{\"cut\":1}")
        .contains("id: " + epoch + "-2\nevent: cut\ndata: {\"cut\":2}")
        .contains("id: " + epoch + "-3\nevent: cut\ndata: {\"cut\":3}");
  }

  @Test
  void anIdOfAnotherRunOrNonsenseGetsThePresentStateOnly() throws Exception {
    cuts(3);
    for (String id : List.of("older-1", "", "-", "abc", "1".repeat(500))) {
      Viewer viewer = hub.admit(Optional.of(id)).orElseThrow();
      assertThat(read(viewer, 1)).contains("bench").doesNotContain("cut");
    }
  }

  @Test
  void keepsABoundedPast() throws Exception {
    cuts(1000);
    String epoch = Long.toString(STARTED.toEpochMilli(), 36);
    Viewer back = hub.admit(Optional.of(epoch + "-0")).orElseThrow();
    assertThat(read(back, 257)).doesNotContain("{\"cut\":744}").contains("{\"cut\":745}");
  }

  @Test
  void aSlowViewerLosesTheOldestPointsAndIsToldHowMany() throws Exception {
    Viewer slow = hub.admit(Optional.empty()).orElseThrow();
    for (int i = 1; i <= 100; i++) {
      hub.publish(new ServerSentEvent(ServerSentEvent.Kind.POINTS, "{\"p\":" + i + "}"));
    }
    assertThat(read(slow, 66))
        .contains("event: missed\ndata: {\"frames\":36}\n\n")
        .doesNotContain("{\"p\":36}")
        .contains("{\"p\":37}")
        .contains("{\"p\":100}");
  }

  @Test
  void aSlowViewerGetsEveryCutAndOnlyTheNewestBench() throws Exception {
    Viewer slow = hub.admit(Optional.empty()).orElseThrow();
    cuts(100);
    for (int i = 0; i < 1000; i++) {
      hub.publish(new ServerSentEvent(ServerSentEvent.Kind.BENCH, "{\"bench\":" + i + "}"));
    }
    String text = read(slow, 101);
    assertThat(text.split("event: cut", -1)).hasSize(101);
    assertThat(text.split("event: bench", -1)).hasSize(2);
    assertThat(text).contains("{\"bench\":999}");
  }

  @Test
  void oneWhoSleepsThroughHundredsOfCutsIsSentAway() {
    Viewer asleep = hub.admit(Optional.empty()).orElseThrow();
    cuts(600);
    assertThat(asleep.gone()).isTrue();
    assertThat(hub.watching()).isZero();
  }

  @Test
  void letsOnlySoManyIn() {
    for (int i = 0; i < EventHub.MOST_VIEWERS; i++) {
      assertThat(hub.admit(Optional.empty())).isPresent();
    }
    assertThat(hub.admit(Optional.empty())).isEmpty();
  }

  @Test
  void aStalledWriteIsEndedAndItsPlaceIsFree() throws Exception {
    Viewer stalled = hub.admit(Optional.empty()).orElseThrow();
    CountDownLatch writing = new CountDownLatch(1);
    Thread thread = new Thread(() -> writeTo(stalled, new Stuck(writing)));
    thread.start();
    writing.await();
    long now = System.nanoTime();

    hub.dismissStalled(now, Long.MAX_VALUE / 2);
    assertThat(hub.watching()).isEqualTo(1);
    hub.dismissStalled(now + 2_000_000_000L, 1_000_000_000L);

    thread.join();
    assertThat(hub.watching()).isZero();
  }

  @Test
  void nobodyIsLetInAfterTheEnd() {
    Viewer viewer = hub.admit(Optional.empty()).orElseThrow();
    hub.close();
    assertThat(viewer.gone()).isTrue();
    assertThat(hub.admit(Optional.empty())).isEmpty();
  }

  private void cuts(int count) {
    for (int i = 1; i <= count; i++) {
      hub.publish(new ServerSentEvent(ServerSentEvent.Kind.CUT, "{\"cut\":" + i + "}"));
    }
  }

  private static void writeTo(Viewer viewer, OutputStream out) {
    try {
      viewer.write(out);
    } catch (IOException e) {
      viewer.dismiss();
    }
  }

  /** What {@code viewer} writes until it has sent {@code frames} frames. */
  private static String read(Viewer viewer, int frames) throws IOException {
    ByteArrayOutputStream out =
        new ByteArrayOutputStream() {
          private int flushes;

          @Override
          public void flush() {
            if (++flushes > frames) {
              viewer.dismiss();
            }
          }
        };
    viewer.write(out);
    boolean interrupted = Thread.interrupted();
    assertThat(interrupted).isTrue();
    return out.toString(StandardCharsets.UTF_8);
  }

  /** A reader that takes nothing until its thread is interrupted. */
  private static final class Stuck extends OutputStream {
    private final CountDownLatch writing;

    Stuck(CountDownLatch writing) {
      this.writing = writing;
    }

    @Override
    public void write(int b) throws IOException {
      writing.countDown();
      try {
        new CountDownLatch(1).await();
      } catch (InterruptedException e) {
        throw new IOException("closed by interrupt", e);
      }
    }
  }
}
