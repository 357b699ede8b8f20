package snick.cli.option;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import snick.cli.terminal.Refusal;
import snick.virtualrig.settings.Mechanics;
import snick.virtualrig.settings.Parting;
import snick.virtualrig.settings.RigSettings;

class VirtualFixtureTest {
  @Command
  private static final class Host {
    @Mixin private VirtualFixture fixture;
  }

  private static RigSettings asked(String... options) {
    Host host = new Host();
    new CommandLine(host).parseArgs(options);
    return host.fixture.settings();
  }

  @Test
  void nothingAskedIsTheUsualRig() {
    assertThat(asked()).isEqualTo(VirtualFixture.USUAL);
    assertThat(asked().fixture().mechanics()).contains(new Mechanics(45, 0.03, 0.06));
  }

  @ParameterizedTest
  @CsvSource({"30Hz", "30", "30.0 Hz"})
  void resonanceAndDampingMakeTheFixture(String resonance) {
    assertThat(asked("--resonance", resonance, "--damping", "0.01").fixture().mechanics())
        .contains(new Mechanics(30, 0.01, 0.02));
  }

  @Test
  void theFilamentPartsAsAsked() {
    assertThat(asked("--parting", "3ms:smooth", "--residual", "2%").fixture().parting())
        .isEqualTo(Parting.of(Parting.Law.SMOOTH, 3).leaving(0.02, 0.4));
    assertThat(asked("--virtual-rate", "80").converter().rate().hertz()).isEqualTo(80);
  }

  @ParameterizedTest
  @CsvSource({
    "--resonance, 45ms, Hz",
    "--resonance, 9000Hz, 2000",
    "--damping, 2, damping ratio",
    "--parting, 3ms:slowly, viscoelastic",
    "--residual, 60%, residual",
    "--virtual-rate, 0, rate"
  })
  void whatCannotBeIsRefusedWithItsLimit(String option, String value, String said) {
    assertThatThrownBy(() -> asked(option, value))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining(said);
  }
}
