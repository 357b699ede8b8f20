package snick.daemon;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.daemon.RigOpening.Step;
import snick.port.PortAddress;
import snick.port.PortException;
import snick.port.Ports;

class RigOpeningTest {
  private static final long SECOND = TimeUnit.SECONDS.toNanos(1);
  private final IOException cannot = new IOException("system error 5");
  @TempDir Path folder;

  private RigOpening of(PortAddress address, Recorder.Absent absent) {
    return new RigOpening(address, new Ports(115_200, folder), absent, HostTime.REAL);
  }

  private RigOpening device(Recorder.Absent absent) {
    return of(new PortAddress.SerialDevice(folder.resolve("rig")), absent);
  }

  private static PortException absence(RigOpening opening) {
    return catchThrowableOfType(PortException.class, () -> opening.open(() -> {}));
  }

  @Test
  void anAbsentRigIsRefusedUnlessRigsAreWaitedFor() {
    RigOpening refused = device(Recorder.Absent.REFUSED);
    RigOpening awaited = device(Recorder.Absent.AWAITED);

    assertThat(refused.after(absence(refused), 0)).isEqualTo(Step.GIVE_UP);
    for (long day = 0; day < 400; day++) {
      assertThat(awaited.after(absence(awaited), day * 86_400 * SECOND)).isEqualTo(Step.AWAIT);
    }
    assertThat(absence(awaited)).hasMessageContaining("plug the rig in");
  }

  @Test
  void whatIsThereAndCannotBeOpenedHasTenSecondsToSettle() {
    RigOpening awaited = device(Recorder.Absent.AWAITED);

    assertThat(awaited.after(cannot, 0)).isEqualTo(Step.TRY_AGAIN);
    assertThat(awaited.after(cannot, 10 * SECOND)).isEqualTo(Step.TRY_AGAIN);
    assertThat(awaited.after(cannot, 10 * SECOND + 1)).isEqualTo(Step.GIVE_UP);
  }

  @Test
  void whatGoesAndComesHasTenSecondsAgain() {
    RigOpening awaited = device(Recorder.Absent.AWAITED);

    assertThat(awaited.after(cannot, 0)).isEqualTo(Step.TRY_AGAIN);
    assertThat(awaited.after(absence(awaited), 9 * SECOND)).isEqualTo(Step.AWAIT);
    assertThat(awaited.after(cannot, 11 * SECOND)).isEqualTo(Step.TRY_AGAIN);
    assertThat(awaited.after(cannot, 22 * SECOND)).isEqualTo(Step.GIVE_UP);
  }

  @Test
  void whatCannotBeOpenedIsRefusedAtOnceIfNothingIsWaitedFor() {
    assertThat(device(Recorder.Absent.REFUSED).after(cannot, 0)).isEqualTo(Step.GIVE_UP);
  }

  @Test
  void aNameThatFitsTwoIsRefusedAtOnce() {
    PortAddress.SerialName name = new PortAddress.SerialName("usb");
    PortException ambiguous = PortException.ambiguous(name, List.of("/dev/a", "/dev/b"));

    assertThat(of(name, Recorder.Absent.AWAITED).after(ambiguous, 0)).isEqualTo(Step.GIVE_UP);
  }

  @Test
  void aFileIsNeverWaitedFor() {
    RigOpening file =
        of(new PortAddress.RecordedFile(folder.resolve("gone")), Recorder.Absent.AWAITED);

    assertThat(file.after(absence(file), 0)).isEqualTo(Step.GIVE_UP);
  }
}
