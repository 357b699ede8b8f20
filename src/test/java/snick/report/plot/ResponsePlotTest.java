package snick.report.plot;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import snick.cut.response.Response;
import snick.cut.response.Ring;
import snick.cut.response.StepShape;
import snick.phrase.NotAccepted;
import snick.phrase.Words;

class ResponsePlotTest {
  private static StepShape shape() {
    double[] shares = new double[81];
    Arrays.setAll(shares, i -> i < 40 ? 1 : Math.exp(-(i - 40) / 5.0));
    double[] uncertainties = new double[81];
    Arrays.fill(uncertainties, 0.01);
    return new StepShape(-0.04, 0.001, shares, uncertainties);
  }

  static Response response() {
    Ring ring = new Ring(45, 0.2, 0.03, 0.1, 0.1, 0);
    return new Response(12, Optional.of(ring), Optional.of(shape()));
  }

  @Test
  void itSaysWhatItShows() {
    Picture picture = ResponsePlot.of(response(), "ab12", 320, Words.english());
    assertThat(picture.title()).isEqualTo("How rig ab12 answers a sudden fall");
    assertThat(picture.description())
        .contains("320 samples a second")
        .contains("rings at 45.0 Hz")
        .contains("damping ratio 0.03")
        .contains("118 ms");
    assertThat(new String(picture.svg(), UTF_8)).contains("<path");
  }

  @Test
  void withoutARingTheShapeIsDrawnAlone() {
    Picture picture =
        ResponsePlot.of(
            new Response(5, Optional.empty(), Optional.of(shape())), "ab12", 80, Words.english());
    assertThat(picture.description()).contains("No ring shows");
  }

  @Test
  void nothingKnownIsNothingToDraw() {
    assertThatThrownBy(() -> ResponsePlot.of(Response.unknown(), "ab12", 80, Words.english()))
        .isInstanceOf(NotAccepted.class)
        .hasMessageContaining("ab12");
  }
}
