package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snick.cut.Cut;
import snick.cut.DetectorSettings;
import snick.daemon.Pipeline;
import snick.frame.Form;
import snick.quantity.SampleRate;

/** The same bytes through decoder, samples and detector at once and byte by byte. */
final class DecodedTwice {
  private DecodedTwice() {}

  /**
   * Demands: no failure, the same outcome, no more samples than bytes can hold, cuts in order and
   * traces in time.
   */
  static void demand(Optional<Form> form, byte[] bytes) {
    List<Cut> whole = new ArrayList<>();
    Pipeline atOnce = pipeline(form, whole);
    atOnce.accept(bytes, bytes.length);
    atOnce.end();
    List<Cut> parts = new ArrayList<>();
    Pipeline byteByByte = pipeline(form, parts);
    byte[] one = new byte[1];
    for (byte b : bytes) {
      one[0] = b;
      byteByByte.accept(one, 1);
    }
    byteByByte.end();
    assertThat(byteByByte.tally()).isEqualTo(atOnce.tally());
    assertThat(byteByByte.stream().facts()).isEqualTo(atOnce.stream().facts());
    assertThat(parts).isEqualTo(whole);
    assertThat(atOnce.tally().samples()).isLessThanOrEqualTo(bytes.length);
    assertThat(atOnce.tally().thrownAway().bytes()).isLessThanOrEqualTo(bytes.length);
    whole.forEach(DecodedTwice::demandOrder);
  }

  private static Pipeline pipeline(Optional<Form> form, List<Cut> cuts) {
    return new Pipeline(
        new Pipeline.Settings(form, new SampleRate(80), DetectorSettings.defaults()), cuts::add);
  }

  private static void demandOrder(Cut cut) {
    for (int i = 1; i < cut.trace().size(); i++) {
      assertThat(cut.trace().deviceNanos(i)).isGreaterThanOrEqualTo(cut.trace().deviceNanos(i - 1));
    }
    cut.peak()
        .ifPresent(
            peak -> {
              assertThat(peak.estimateCounts()).isFinite();
              assertThat(peak.standardUncertaintyCounts()).isFinite().isNotNegative();
            });
  }
}
