package snick.daemon.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.daemon.link.RigOpening.Step;
import snick.port.PortAddress;
import snick.port.PortException;
import snick.port.Ports;

class RigOpeningTest {
  private static final long SECOND = TimeUnit.SECONDS.toNanos(1);
  private final IOException cannot = new IOException("system error 5");
  @TempDir Path folder;

  private RigOpening of(PortAddress address, WhenAbsent absent) {
    return new RigOpening(address, new Ports(115_200, folder), absent, HostTime.REAL);
  }

  private RigOpening device(WhenAbsent absent) {
    return of(new PortAddress.SerialDevice(folder.resolve("rig")), absent);
  }

  private static PortException absence(RigOpening opening) {
    return catchThrowableOfType(PortException.class, () -> opening.open(() -> {}));
  }

  @Test
  void anAbsentRigIsRefusedUnlessRigsAreWaitedFor() {
    RigOpening refused = device(WhenAbsent.REFUSED);
    RigOpening awaited = device(WhenAbsent.AWAITED);

    assertThat(refused.after(absence(refused), 0)).isEqualTo(Step.GIVE_UP);
    for (long day = 0; day < 400; day++) {
      assertThat(awaited.after(absence(awaited), day * 86_400 * SECOND)).isEqualTo(Step.AWAIT);
    }
    assertThat(absence(awaited)).hasMessageContaining("plug the rig in");
  }

  @Test
  void whatIsThereAndCannotBeOpenedHasTenSecondsToSettle() {
    RigOpening awaited = device(WhenAbsent.AWAITED);

    assertThat(awaited.after(cannot, 0)).isEqualTo(Step.TRY_AGAIN);
    assertThat(awaited.after(cannot, 10 * SECOND)).isEqualTo(Step.TRY_AGAIN);
    assertThat(awaited.after(cannot, 10 * SECOND + 1)).isEqualTo(Step.GIVE_UP);
  }

  @Test
  void whatGoesAndComesHasTenSecondsAgain() {
    RigOpening awaited = device(WhenAbsent.AWAITED);

    assertThat(awaited.after(cannot, 0)).isEqualTo(Step.TRY_AGAIN);
    assertThat(awaited.after(absence(awaited), 9 * SECOND)).isEqualTo(Step.AWAIT);
    assertThat(awaited.after(cannot, 11 * SECOND)).isEqualTo(Step.TRY_AGAIN);
    assertThat(awaited.after(cannot, 22 * SECOND)).isEqualTo(Step.GIVE_UP);
  }

  @Test
  void whatCannotBeOpenedIsRefusedAtOnceIfNothingIsWaitedFor() {
    assertThat(device(WhenAbsent.REFUSED).after(cannot, 0)).isEqualTo(Step.GIVE_UP);
  }

  @Test
  void aNameThatFitsTwoIsRefusedAtOnce() {
    PortAddress.SerialName name = new PortAddress.SerialName("usb");
    PortException ambiguous = PortException.ambiguous(name, List.of("/dev/a", "/dev/b"));

    assertThat(of(name, WhenAbsent.AWAITED).after(ambiguous, 0)).isEqualTo(Step.GIVE_UP);
  }

  @Test
  void aFileIsNeverWaitedFor() {
    RigOpening file = of(new PortAddress.RecordedFile(folder.resolve("gone")), WhenAbsent.AWAITED);

    assertThat(file.after(absence(file), 0)).isEqualTo(Step.GIVE_UP);
  }
}
