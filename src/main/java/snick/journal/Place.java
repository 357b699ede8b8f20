package snick.journal;

import java.util.Locale;
import java.util.OptionalDouble;
import snick.journal.name.Field;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/** A place along the edge. */
public sealed interface Place permits Place.FromHeel, Place.Region {
  /**
   * What is written in JSON, in the store and by hand, for example {@code 35mm} or {@code heel}.
   */
  String word();

  /** As a person reads it, for example {@code 35 mm}. */
  default String plain() {
    return word();
  }

  /** The same in words of the catalog. */
  default Phrase told() {
    return millimetres().isPresent()
        ? Phrase.of("place.mm", "mm", PlaceWords.plainNumber(millimetres().getAsDouble()))
        : Phrase.of("place." + word());
  }

  /** Distance from the heel, mm; empty for a region. */
  OptionalDouble millimetres();

  /** A place {@code millimetres} mm from the heel, 0 to 2000 mm. */
  static Place fromHeel(double millimetres) {
    return new FromHeel(millimetres);
  }

  /**
   * The place written as {@code word}, in any case.
   *
   * @throws NotAccepted if it is none of heel, middle, tip (or h, m, t) nor a length in mm
   */
  static Place parse(String word) {
    return PlaceWords.parse(word)
        .orElseThrow(
            () ->
                new NotAccepted(
                    Phrase.of("refused.place_not_known")
                        .with("word", Field.shown(word))
                        .with("allowed", Phrase.of("allowed.place"))));
  }

  /**
   * A measured place, kept to 0.001 mm.
   *
   * @param fromHeelMm distance from the heel along the edge, 0 to 2000 mm
   */
  record FromHeel(double fromHeelMm) implements Place {
    public FromHeel {
      fromHeelMm =
          Math.rint(Field.within("place along the edge", fromHeelMm, 0, 2000, "mm") * 1000) / 1000;
    }

    @Override
    public String word() {
      return PlaceWords.plainNumber(fromHeelMm) + "mm";
    }

    @Override
    public String plain() {
      return PlaceWords.plainNumber(fromHeelMm) + " mm";
    }

    @Override
    public OptionalDouble millimetres() {
      return OptionalDouble.of(fromHeelMm);
    }
  }

  /** A third of the edge. */
  enum Region implements Place {
    HEEL,
    MIDDLE,
    TIP;

    @Override
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    @Override
    public OptionalDouble millimetres() {
      return OptionalDouble.empty();
    }
  }
}
