package snick.journal;

import java.util.ArrayList;
import java.util.List;
import snick.journal.name.Field;
import snick.phrase.NotAccepted;

/**
 * The part of an edge on which cuts may be made, and how far apart they must be.
 *
 * @param lengthMm length of the edge from heel to tip, 1 to 2000 mm
 * @param marginMm kept clear at each end, 0 mm to less than half the length
 * @param spacingMm least distance between two cuts, above 0 to 100 mm
 */
public record EdgeSpan(double lengthMm, double marginMm, double spacingMm) {
  /**
   * Assumed if a blade's edge length is not noted: short, so that no suggestion misses the edge.
   */
  public static final double DEFAULT_LENGTH_MM = 80;

  private static final double DEFAULT_MARGIN_MM = 10;
  private static final double DEFAULT_SPACING_MM = 2;

  public EdgeSpan {
    Field.within("edge length", lengthMm, 1, 2000, "mm");
    if (!(marginMm >= 0 && marginMm < lengthMm / 2)) {
      throw new NotAccepted(
          "refused.margin_leaves_nothing", "margin", marginMm, "length", lengthMm);
    }
    if (!(spacingMm > 0 && spacingMm <= 100)) {
      throw new NotAccepted("refused.spacing", "mm", spacingMm);
    }
  }

  /** The span of {@code blade}, with the default length if its own is not noted. */
  public static EdgeSpan of(Blade blade) {
    double length = blade.edgeLengthMm().orElse(DEFAULT_LENGTH_MM);
    return new EdgeSpan(length, Math.min(DEFAULT_MARGIN_MM, length / 8), DEFAULT_SPACING_MM);
  }

  /**
   * The spot farthest from all of {@code usedMm}, the one nearer the heel if two are equally far,
   * and the middle if none is used; rounded to 0.5 mm where the spacing allows. Used spots off the
   * edge count too.
   *
   * @param usedMm distances from the heel of spots already cut, mm
   */
  public NextPlace next(List<Double> usedMm) {
    if (usedMm.isEmpty()) {
      return at(lengthMm / 2, lengthMm / 2 - marginMm);
    }
    double best = marginMm;
    for (double candidate : candidates(usedMm)) {
      if (clearance(candidate, usedMm) > clearance(best, usedMm) + 1e-9) {
        best = candidate;
      }
    }
    double clear = clearance(best, usedMm);
    return clear >= spacingMm ? rounded(best, clear, usedMm) : new NextPlace.Full(clear, spacingMm);
  }

  /** Whether {@code placeMm} is closer to a used spot than the spacing. */
  public boolean isTaken(double placeMm, List<Double> usedMm) {
    return clearance(placeMm, usedMm) < spacingMm;
  }

  private List<Double> candidates(List<Double> usedMm) {
    List<Double> sorted = usedMm.stream().sorted().toList();
    List<Double> candidates = new ArrayList<>(List.of(marginMm, lengthMm - marginMm));
    for (int i = 1; i < sorted.size(); i++) {
      double middle = (sorted.get(i - 1) + sorted.get(i)) / 2;
      if (middle >= marginMm && middle <= lengthMm - marginMm) {
        candidates.add(middle);
      }
    }
    return candidates.stream().sorted().toList();
  }

  private NextPlace rounded(double place, double clear, List<Double> usedMm) {
    double half = Math.rint(place * 2) / 2;
    boolean stays = half >= marginMm && half <= lengthMm - marginMm && !isTaken(half, usedMm);
    return stays ? at(half, clearance(half, usedMm)) : at(place, clear);
  }

  private static double clearance(double place, List<Double> usedMm) {
    return usedMm.stream()
        .mapToDouble(used -> Math.abs(used - place))
        .min()
        .orElse(Double.POSITIVE_INFINITY);
  }

  private static NextPlace.At at(double place, double clearanceMm) {
    return new NextPlace.At(new Place.FromHeel(place), clearanceMm);
  }
}
