package snick.cli.cuts;

import static org.assertj.core.api.Assertions.assertThat;
import static snick.InEnglish.told;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import snick.InEnglish;
import snick.cli.SessionStory;
import snick.cli.option.DataDirectory;
import snick.daemon.Scale;
import snick.quantity.SampleRate;
import snick.store.record.Recording;

/** By which calibration a rig without one of its own is measured; forces are invented. */
class StoredCalibrationsTest {
  @TempDir private Path folder;
  private final Line line = new Line();
  private SessionStory story;

  /** A command line with the options that choose. */
  @Command
  private static final class Line {
    @Mixin private DataDirectory data;
    @Mixin private CalibrationChoice typed;
  }

  @BeforeEach
  void begin() {
    story = new SessionStory(folder);
  }

  private Scale scale(String... typed) {
    String[] all = Arrays.copyOf(typed, typed.length + 1);
    all[typed.length] = "--data=" + folder;
    new CommandLine(line).parseArgs(all);
    Recording recording =
        new Recording(
            "51ab",
            "invented",
            "/dev/ttyUSB0",
            Recording.Form.BINARY,
            Instant.EPOCH,
            OptionalInt.of(128),
            Optional.of(new SampleRate(80)),
            0);
    return new StoredCalibrations(line.data, line.typed).forRecording(recording);
  }

  @Test
  void forcesEnteredByHandLendTheirUnitToNoRig() {
    story.run("session", "start", "evening", "--blade", "kitchen-1");
    story.run("cuts", "enter", "212,198,205");
    assertThat(scale().calibration()).isEmpty();
    assertThat(scale().reasons())
        .singleElement()
        .extracting(InEnglish::told)
        .isEqualTo("no calibration for rig 51ab");
    assertThat(told(scale().remedy().orElseThrow())).contains("snick calibrate PORT");
  }

  @Test
  void aNumberTypedInBeforeIsUsedAndThatIsSaid() {
    story.cuts(212);
    assertThat(scale().calibration()).isPresent();
    assertThat(scale().warnings())
        .singleElement()
        .extracting(InEnglish::told)
        .asString()
        .contains("rig 51ab has no calibration of its own", "typed in without saying for which rig")
        .contains("snick calibrate PORT");
  }

  @Test
  void oneThatIsTypedNowNeedsNoWarning() {
    story.cuts(212);
    assertThat(scale("--counts-per-gf=437.25").calibration()).isPresent();
    assertThat(scale("--counts-per-gf=437.25").warnings()).isEmpty();
  }
}
