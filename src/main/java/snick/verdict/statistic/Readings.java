package snick.verdict.statistic;

import java.util.Arrays;
import org.apache.commons.statistics.descriptive.Mean;
import org.apache.commons.statistics.descriptive.StandardDeviation;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/**
 * The cut-through forces of one group, for example one stage, in gf as they were given, so that
 * equal readings stay equal. Immutable; 1 to 2000 finite readings.
 */
public final class Readings {
  /** Most readings in one group. */
  public static final int LIMIT = 2000;

  /** Far beyond any force, so that data of others can be judged; squares stay finite. */
  private static final double LARGEST_GF = 1e13;

  private final String name;
  private final double[] gramForce;
  private final double[] placesMm;

  private Readings(String name, double[] gramForce, double... placesMm) {
    this.name = name;
    this.gramForce = gramForce;
    this.placesMm = placesMm;
  }

  /**
   * Readings of {@code name}, in gf.
   *
   * @throws NotAccepted if there are none or too many, or one is not finite or out of range
   */
  public static Readings ofGramForce(String name, double... gramForce) {
    if (gramForce.length == 0) {
      throw new NotAccepted("refused.no_cuts", "name", name);
    }
    if (gramForce.length > LIMIT) {
      throw new NotAccepted(
          "refused.too_many_cuts", "name", name, "n", gramForce.length, "limit", LIMIT);
    }
    for (int i = 0; i < gramForce.length; i++) {
      if (!(Math.abs(gramForce[i]) <= LARGEST_GF)) {
        throw new NotAccepted(
            "refused.value_out_of_range", "name", name, "i", i + 1, "value", gramForce[i]);
      }
    }
    return new Readings(name, gramForce.clone());
  }

  /**
   * The same readings with the place of each along the edge, mm.
   *
   * @throws IllegalArgumentException unless there are as many places as readings
   */
  public Readings at(double... places) {
    if (places.length != gramForce.length) {
      throw new IllegalArgumentException(
          places.length + " places for " + gramForce.length + " readings");
    }
    return new Readings(name, gramForce, places.clone());
  }

  /** The same readings, places forgotten. */
  public Readings withoutPlaces() {
    return new Readings(name, gramForce);
  }

  /** The first readings, at most {@code most}. */
  public Readings first(int most) {
    return most >= gramForce.length
        ? this
        : new Readings(
            name,
            Arrays.copyOf(gramForce, most),
            Arrays.copyOf(placesMm, Math.min(most, placesMm.length)));
  }

  /** Place of each reading along the edge, mm; a copy, empty if they are not all known. */
  public double[] placesMm() {
    return placesMm.clone();
  }

  /** Name of the group. */
  public String name() {
    return name;
  }

  /** Number of readings. */
  public int count() {
    return gramForce.length;
  }

  /** The readings in gf, in the order given; a copy. */
  public double[] gramForce() {
    return gramForce.clone();
  }

  /** Arithmetic mean, gf. */
  public double meanGf() {
    return Mean.of(gramForce).getAsDouble();
  }

  /** Whether all readings are the same number, so that their scatter is not known. */
  public boolean allEqual() {
    return Arrays.stream(gramForce).allMatch(v -> v == gramForce[0]);
  }

  /** Sample standard deviation (n − 1), gf; 0 if all are equal; needs 2 readings or more. */
  public double sdGf() {
    return allEqual() ? 0 : StandardDeviation.of(gramForce).getAsDouble();
  }

  public Readings atLeast(int least) {
    if (gramForce.length < least) {
      throw new NotAccepted(
          Phrase.count("refused.too_few_cuts", gramForce.length)
              .with("name", name)
              .with("least", least)
              .with("more", least - gramForce.length));
    }
    return this;
  }
}
