package snick.cli.lot;

import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import snick.cli.terminal.Refusal;
import snick.journal.FilamentLot;
import snick.journal.LotFigure;

/** What is said of a filament lot: its material, and an option for each figure. */
final class LotFields {
  @Option(
      names = "--material",
      paramLabel = "TEXT",
      description = "Its kind, for example 'nylon monofilament'.")
  private Optional<String> material;

  private final Map<LotFigure, OptionSpec> figures = new EnumMap<>(LotFigure.class);

  @Spec(Spec.Target.MIXEE)
  void offerIn(CommandSpec command) {
    for (LotFigure figure : LotFigure.values()) {
      OptionSpec option =
          OptionSpec.builder("--" + figure.word())
              .paramLabel(figure.unit().toUpperCase(Locale.ROOT))
              .type(Double.class)
              .description(figure.meaning())
              .build();
      figures.put(figure, option);
      command.addOption(option);
    }
  }

  /** A new lot; its material and what every lot has must be said. */
  FilamentLot named(String lot) {
    for (LotFigure figure : LotFigure.values()) {
      if (figure.required() && said(figure).isEmpty()) {
        throw missing(figure.word());
      }
    }
    return FilamentLot.of(lot, material.orElseThrow(() -> missing("material")), this::said);
  }

  /** {@code before} with what was said in place of what it says. */
  FilamentLot over(FilamentLot before) {
    return FilamentLot.of(
        before.lot(),
        material.orElse(before.material()),
        figure -> said(figure).isPresent() ? said(figure) : before.figure(figure));
  }

  private OptionalDouble said(LotFigure figure) {
    Double value = figures.get(figure).getValue();
    return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  private static Refusal missing(String option) {
    return Refusal.usage("--" + option + " is missing");
  }
}
