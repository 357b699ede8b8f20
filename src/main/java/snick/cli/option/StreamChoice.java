package snick.cli.option;

import java.util.Optional;
import picocli.CommandLine.Option;
import snick.cli.terminal.Refusal;
import snick.cut.DetectorSettings;
import snick.daemon.Pipeline;
import snick.frame.Form;
import snick.quantity.SampleRate;

/** What a stream of bytes is, where it cannot say so itself. */
public final class StreamChoice {
  @Option(
      names = "--rate",
      paramLabel = "HZ",
      defaultValue = "80",
      description = "Samples per second of text without time stamps (default: ${DEFAULT-VALUE}).")
  private double rateHertz;

  @Option(
      names = "--form",
      paramLabel = "FORM",
      description = "binary or text, if it is recognised wrongly (default: found out).")
  private FormWord form;

  /** Words for the form. */
  enum FormWord {
    binary,
    text
  }

  /** Settings of a pipeline for such a stream. */
  public Pipeline.Settings settings() {
    return new Pipeline.Settings(form(), rate(), DetectorSettings.defaults());
  }

  private Optional<Form> form() {
    return Optional.ofNullable(form).map(f -> f == FormWord.text ? Form.TEXT : Form.BINARY);
  }

  private SampleRate rate() {
    try {
      return new SampleRate(rateHertz);
    } catch (IllegalArgumentException e) {
      throw Refusal.usage("--rate: " + e.getMessage());
    }
  }
}
