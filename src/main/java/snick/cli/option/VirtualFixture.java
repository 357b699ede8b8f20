package snick.cli.option;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import picocli.CommandLine.Option;
import snick.cli.terminal.Refusal;
import snick.quantity.SampleRate;
import snick.virtualrig.settings.ConverterSettings;
import snick.virtualrig.settings.FixtureSettings;
import snick.virtualrig.settings.Mechanics;
import snick.virtualrig.settings.Parting;
import snick.virtualrig.settings.RigSettings;

/** What the virtual rig's fixture, filament and converter are like, if not as usual. */
public final class VirtualFixture {
  /**
   * The invented rig, at a rate that shows how its fixture rings; its wires are shielded, for at
   * that rate the converter takes no hum away.
   */
  public static final RigSettings USUAL =
      RigSettings.USUAL
          .with(ConverterSettings.USUAL.withRate(new SampleRate(320)))
          .with(RigSettings.USUAL.disturbance().withHumGramForce(0));

  private static final Pattern NUMBER_AND_UNIT =
      Pattern.compile("(\\d{1,6}(?:\\.\\d{1,6})?) ?(Hz|ms|%|)");

  /** A strand that holds this long meets the next loading after a short rest. */
  private static final double RESIDUAL_SECONDS = 0.4;

  @Option(
      names = "--resonance",
      paramLabel = "HZ",
      description = "Resonance of the fixture, 1Hz to 2000Hz (default: the usual rig's).")
  private Optional<String> resonance;

  @Option(
      names = "--damping",
      paramLabel = "RATIO",
      description =
          "Damping ratio of the fixture, 0.001 to 0.95; twice that while the hand holds"
              + " (default: the usual rig's).")
  private Optional<Double> damping;

  @Option(
      names = "--parting",
      paramLabel = "TIME[:LAW]",
      description =
          "How the filament lets go, as 3ms:smooth; laws: at_once, linear, smooth, viscoelastic.")
  private Optional<String> parting;

  @Option(
      names = "--residual",
      paramLabel = "SHARE",
      description = "Share of the force that stays for 0.4 s after a cut, 0%% to 20%%.")
  private Optional<String> residual;

  @Option(
      names = "--virtual-rate",
      paramLabel = "HZ",
      description = "Samples per second of the virtual rig (default: 320).")
  private Optional<Double> rateHertz;

  /** The usual rig with what was asked for. */
  public RigSettings settings() {
    FixtureSettings fixture = USUAL.fixture();
    return Refusal.ifNotAccepted(
        () ->
            USUAL
                .with(withMechanics(fixture.with(parting(fixture.parting()))))
                .with(
                    rateHertz
                        .map(hertz -> USUAL.converter().withRate(new SampleRate(hertz)))
                        .orElse(USUAL.converter())),
        why -> Refusal.usage("the virtual rig: " + why));
  }

  private FixtureSettings withMechanics(FixtureSettings usual) {
    if (resonance.isEmpty() && damping.isEmpty()) {
      return usual;
    }
    Mechanics before = usual.mechanics().orElse(Mechanics.RINGING);
    double ratio = damping.orElse(before.dampingRatio());
    return usual.with(
        new Mechanics(
            resonance
                .map(word -> number("--resonance", word, "Hz"))
                .orElse(before.resonanceHertz()),
            ratio,
            Math.min(Mechanics.MOST_DAMPED, 2 * ratio)));
  }

  private Parting parting(Parting usual) {
    String[] words = parting.map(word -> word.split(":", 2)).orElse(new String[0]);
    double millis = words.length > 0 ? number("--parting", words[0], "ms") : usual.millis();
    Parting.Law law = words.length > 1 ? law(words[1]) : usual.law();
    return residual
        .map(word -> number("--residual", word, "%") / 100)
        .map(share -> Parting.of(law, millis).leaving(share, RESIDUAL_SECONDS))
        .orElse(Parting.of(law, millis));
  }

  private static Parting.Law law(String word) {
    return Refusal.ifNotAccepted(
        () -> Parting.Law.valueOf(word.toUpperCase(Locale.ROOT)),
        why ->
            Refusal.usage(
                "--parting: no law of that name; there are at_once, linear, smooth, viscoelastic"));
  }

  /** A number with its unit, which may be left out. */
  private static double number(String option, String word, String unit) {
    Matcher matcher = NUMBER_AND_UNIT.matcher(word);
    if (!matcher.matches() || !(matcher.group(2).isEmpty() || matcher.group(2).equals(unit))) {
      throw Refusal.usage(option + " wants a number and " + unit + ", as in 45" + unit);
    }
    return Double.parseDouble(matcher.group(1));
  }
}
