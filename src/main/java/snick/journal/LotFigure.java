package snick.journal;

import java.util.Locale;
import snick.journal.name.Field;
import snick.phrase.Phrase;
import snick.quantity.Force;
import snick.quantity.Worded;

/**
 * What is noted of a filament lot as a number. Command line, store, packages, pool and report ask
 * this list: a new figure is a constant here and a column of its {@link #key} in the schema.
 */
public enum LotFigure implements Worded {
  DIAMETER("mm", 0.01, 5, true, "Diameter, mm."),
  TENSION("N", 0.01, 500, false, "Tension on the rig before the edge touches, N.") {
    @Override
    Phrase told(double newtons) {
      double gramForce = Force.ofNewtons(newtons).gramForce();
      return Phrase.of("lot.tension", "n", digits(newtons), "gf", Math.round(gramForce));
    }
  };

  private final String unit;
  private final double low;
  private final double high;
  private final boolean required;
  private final String meaning;

  LotFigure(String unit, double low, double high, boolean required, String meaning) {
    this.unit = unit;
    this.low = low;
    this.high = high;
    this.required = required;
    this.meaning = meaning;
  }

  /** Its name with its unit, as in files and the store: {@code diameter_mm}. */
  public String key() {
    return (name() + "_" + unit).toLowerCase(Locale.ROOT);
  }

  public String unit() {
    return unit;
  }

  /** Whether every lot has it. */
  public boolean required() {
    return required;
  }

  /** One sentence for help. */
  public String meaning() {
    return meaning;
  }

  /** {@code value} with its unit, and its name where that does not tell. */
  Phrase told(double value) {
    return Phrase.of("lot." + word(), "n", digits(value));
  }

  double checked(double value) {
    return Field.within("filament " + word(), value, low, high, unit);
  }

  /** A number with at most three decimals, without trailing zeros. */
  private static String digits(double value) {
    return String.format(Locale.ROOT, "%.3f", value).replaceFirst("\\.?0+$", "");
  }
}
