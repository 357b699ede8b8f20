package snick.virtualrig.device;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import snick.virtualrig.Heard;
import snick.virtualrig.Rendering;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.settings.DeviceSettings;
import snick.virtualrig.settings.RigSettings;
import snick.virtualrig.settings.TextForm;
import snick.virtualrig.signal.SignalModel;

class SketchTwinTest {
  private final Heard host = new Heard();

  private List<String> lines(TextForm form, int conversions) {
    RigSettings settings = RigSettings.USUAL.with(DeviceSettings.USUAL.withText(form));
    new Rendering(new VirtualRig(settings, 4), host, cut -> {}).play(conversions);
    return host.raw.toString(StandardCharsets.US_ASCII).lines().toList();
  }

  private List<Integer> modelCounts(int conversions) {
    SignalModel model = new SignalModel(RigSettings.USUAL, 4, cut -> {});
    return IntStream.range(0, conversions).mapToObj(ignored -> model.convert()).toList();
  }

  @Test
  void printsBareCounts() {
    List<String> lines = lines(TextForm.COUNTS, 50);
    assertThat(lines.subList(5, 55)).allMatch(line -> line.matches("\\d{5}"));
    assertThat(host.counts).isEqualTo(modelCounts(50));
    assertThat(host.announcements)
        .containsExactly(
            "firmware=virtualrig 1", "device=51a0000000000001", "rate=80.000", "gain=128");
  }

  @Test
  void printsTimeCountsAndChecksum() {
    List<String> lines = lines(TextForm.CHECKED, 50);
    assertThat(lines.get(5)).matches("12500,\\d{5}\\*[0-9A-F]{2}");
    assertThat(host.raw.toString(StandardCharsets.US_ASCII)).contains("\r\n");
    assertThat(host.counts).isEqualTo(modelCounts(50));
    assertThat(host.decoder.tally().thrownAway().badChecks()).isZero();
  }

  @Test
  void announcesAgainForAHostThatCameLater() {
    lines(TextForm.COUNTS, 80 * 130);
    assertThat(host.announcements).hasSize(8);
  }

  @Test
  void printsGramForceWithDecimals() {
    List<String> lines = lines(new TextForm(false, false, 2, false), 50);
    assertThat(host.announcements).contains("unit=gf");
    assertThat(lines.subList(6, 56)).allMatch(line -> line.matches("-?0\\.\\d\\d"));
    assertThat(host.decimals).isGreaterThanOrEqualTo(2);
  }

  @Test
  void checksumIsTheExclusiveOrOfTheBytesBeforeTheStar() {
    String line = lines(TextForm.CHECKED, 1).get(5);
    int star = line.indexOf('*');
    int check = line.substring(0, star).chars().reduce(0, (a, b) -> a ^ b);
    assertThat(Integer.parseInt(line.substring(star + 1), 16)).isEqualTo(check);
  }
}
