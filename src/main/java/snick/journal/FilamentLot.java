package snick.journal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.Stream;
import snick.journal.name.Field;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/**
 * One lot of test filament. A new lot is compared with the old one on a reference edge.
 *
 * @param lot own name of the lot, its key, 1 to 120 characters
 * @param material its kind, for example nylon monofilament, 1 to 120 characters
 * @param figures what is noted of it as numbers, each in its range; those required are there
 */
public record FilamentLot(String lot, String material, Map<LotFigure, Double> figures) {
  public FilamentLot {
    lot = Field.name("filament lot", lot);
    material = Field.name("filament material", material);
    Map<LotFigure, Double> ordered = new EnumMap<>(LotFigure.class);
    ordered.putAll(figures);
    ordered.forEach(LotFigure::checked);
    for (LotFigure figure : LotFigure.values()) {
      if (figure.required() && !ordered.containsKey(figure)) {
        throw new NotAccepted(
            "refused.missing", "field", Field.called("filament " + figure.word()));
      }
    }
    figures = Collections.unmodifiableMap(ordered);
  }

  /** A lot whose figures stand where {@code reading} finds them. */
  public static FilamentLot of(
      String lot, String material, Function<LotFigure, OptionalDouble> reading) {
    Map<LotFigure, Double> figures = new EnumMap<>(LotFigure.class);
    for (LotFigure figure : LotFigure.values()) {
      reading.apply(figure).ifPresent(value -> figures.put(figure, value));
    }
    return new FilamentLot(lot, material, figures);
  }

  /** A figure in its unit; empty if it is not noted. */
  public OptionalDouble figure(LotFigure figure) {
    Double value = figures.get(figure);
    return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  /** Material and figures, with their units. */
  public Phrase told() {
    List<Object> all = new ArrayList<>(List.of(material));
    figures.forEach((figure, value) -> all.add(figure.told(value)));
    return Phrase.of("lot.told", "what", all);
  }

  /** In what {@code next}, another lot, is not like this one; its name set apart. */
  public List<Phrase> differences(FilamentLot next) {
    Stream<Phrase> kind =
        material.equals(next.material) ? Stream.empty() : Stream.of(then(material, next.material));
    return Stream.concat(
            kind,
            Arrays.stream(LotFigure.values())
                .filter(figure -> !figure(figure).equals(next.figure(figure)))
                .map(figure -> then(told(figure), next.told(figure))))
        .toList();
  }

  private static Phrase then(Object before, Object after) {
    return Phrase.of("then", "before", before, "after", after);
  }

  private Phrase told(LotFigure figure) {
    OptionalDouble value = figure(figure);
    return value.isPresent()
        ? figure.told(value.getAsDouble())
        : Phrase.of("lot.no_" + figure.word());
  }
}
