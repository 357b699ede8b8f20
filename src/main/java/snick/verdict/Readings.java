package snick.verdict;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.apache.commons.statistics.descriptive.Mean;
import org.apache.commons.statistics.descriptive.StandardDeviation;

/**
 * The cut-through forces of one group, for example one stage, in gf as they were given, so that
 * equal readings stay equal. Immutable; 1 to 2000 finite readings.
 */
public final class Readings {
  /** Most readings in one group. */
  public static final int LIMIT = 2000;

  private static final double LARGEST_GF = 1e8;

  private final String name;
  private final double[] gramForce;

  private Readings(String name, double[] gramForce) {
    this.name = name;
    this.gramForce = gramForce;
  }

  /**
   * Readings of {@code name}, in gf.
   *
   * @throws NotComparable if there are none or too many, or one is not finite or out of range
   */
  public static Readings ofGramForce(String name, double... gramForce) {
    if (gramForce.length == 0) {
      throw new NotComparable(name + " has no cuts: make at least 2");
    }
    if (gramForce.length > LIMIT) {
      throw new NotComparable(
          name + " has " + gramForce.length + " cuts, the limit is " + LIMIT + ": use fewer");
    }
    for (int i = 0; i < gramForce.length; i++) {
      if (!(Math.abs(gramForce[i]) <= LARGEST_GF)) {
        throw new NotComparable(
            name + ": value " + (i + 1) + " is " + gramForce[i] + ", not a finite force in gf");
      }
    }
    return new Readings(name, gramForce.clone());
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
  double sdGf() {
    return allEqual() ? 0 : StandardDeviation.of(gramForce).getAsDouble();
  }

  /** These readings without the one at {@code index}. */
  Readings without(int index) {
    return new Readings(
        name,
        IntStream.range(0, gramForce.length)
            .filter(i -> i != index)
            .mapToDouble(i -> gramForce[i])
            .toArray());
  }

  Readings atLeast(int least) {
    if (gramForce.length < least) {
      throw new NotComparable(
          name
              + " has "
              + gramForce.length
              + (gramForce.length == 1 ? " cut" : " cuts")
              + ", at least "
              + least
              + " are needed to know its scatter: make "
              + (least - gramForce.length)
              + " more");
    }
    return this;
  }
}
