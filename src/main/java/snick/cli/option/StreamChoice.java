package snick.cli.option;

import java.util.Optional;
import picocli.CommandLine.Option;
import snick.cli.terminal.Refusal;
import snick.cut.DetectorSettings;
import snick.daemon.Pipeline;
import snick.frame.Form;
import snick.frame.text.Columns;
import snick.frame.text.TextRule;
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

  @Option(
      names = "--columns",
      paramLabel = "LIST",
      description =
          "What the columns of text lines hold, as in time_ms,counts,-: time_s, time_ms, time_us or"
              + " time (ISO 8601); counts, offset24, unsigned24, hex24, g, kg, N or mN; - for"
              + " anything else. auto: find out anew (default: as last recorded, else found out).")
  private Optional<String> columns = Optional.empty();

  /** Words for the form. */
  enum FormWord {
    binary,
    text
  }

  /** Settings of a pipeline for such a stream. */
  public Pipeline.Settings settings() {
    return new Pipeline.Settings(form(), rate(), DetectorSettings.defaults(), text());
  }

  private TextRule text() {
    return Refusal.ifNotAccepted(
        () ->
            columns
                .<TextRule>map(
                    words ->
                        words.equals("auto")
                            ? new TextRule.FoundOutAnew()
                            : new TextRule.Named(Columns.parse(words)))
                .orElseGet(TextRule.FoundOut::new),
        why -> Refusal.usage("--columns: " + why));
  }

  private Optional<Form> form() {
    return Optional.ofNullable(form).map(f -> f == FormWord.text ? Form.TEXT : Form.BINARY);
  }

  private SampleRate rate() {
    return Refusal.ifNotAccepted(
        () -> new SampleRate(rateHertz), why -> Refusal.usage("--rate: " + why));
  }
}
