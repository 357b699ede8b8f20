package snick.force.check;

import java.util.Comparator;
import java.util.List;
import snick.force.mass.Range;

/**
 * One mass hung at several places of the filament, as the eccentricity test of weighing instruments
 * does it (OIML R 76-1, A.4.7; from memory): the reading must not depend on the place.
 *
 * @param points readings, 3 or more, at 2 places or more
 * @param limit largest relative difference from the reading nearest the middle that passes
 */
public record PlaceCheck(List<Point> points, double limit) {
  /** Limit that is taken if none is stated; common practice, no source. */
  public static final double USUAL_LIMIT = 0.005;

  /**
   * One reading.
   *
   * @param placeMm place along the filament, mm from its middle
   * @param deflectionCounts reading under load less that without, counts; not 0
   */
  public record Point(double placeMm, double deflectionCounts) {}

  public PlaceCheck {
    points = List.copyOf(points);
    Range.require("limit", limit, 1e-6, 0.5, "(relative)");
    if (points.size() < 3 || points.stream().map(Point::placeMm).distinct().count() < 2) {
      throw new IllegalArgumentException(
          "a check of place needs 3 readings or more, at 2 places or more");
    }
  }

  private Point middle() {
    return points.stream()
        .min(Comparator.comparingDouble(p -> Math.abs(p.placeMm())))
        .orElseThrow();
  }

  /** Reading of {@code point} against that nearest the middle, less 1. */
  public double relative(Point point) {
    return point.deflectionCounts() / middle().deflectionCounts() - 1;
  }

  /** Largest relative difference, either way: the half-width for the budget. */
  public double largest() {
    return points.stream().mapToDouble(p -> Math.abs(relative(p))).max().orElseThrow();
  }

  /** Whether the place does not matter within the limit. */
  public boolean passes() {
    return largest() <= limit;
  }

  /** Relative change for each mm, between the outermost places: 2/L for a cell under one anchor. */
  public double perMillimetre() {
    Comparator<Point> along = Comparator.comparingDouble(Point::placeMm);
    Point first = points.stream().min(along).orElseThrow();
    Point last = points.stream().max(along).orElseThrow();
    return (relative(last) - relative(first)) / (last.placeMm() - first.placeMm());
  }
}
