package snick.force.budget;

import java.util.List;
import snick.force.budget.BudgetTerm.Source;
import snick.force.mass.Distribution;
import snick.force.mass.Range;

/**
 * How far the force at the cell may differ from the force at the edge, in proportion to it: half
 * widths, 0 where the person states nothing. That the cell carries the whole filament frame is
 * taken for granted; see {@code rig-calibration/cell-to-edge.md}.
 *
 * @param place by where on the filament the edge presses, 0 to 0.5; {@code verify place} finds it
 * @param pullDegrees how far the pull may lean from the cell's axis, 0 to 45°
 * @param tiltDegrees how far the rig may lean from how it stood at calibration, 0 to 45°
 * @param friction part of the force that guides may carry, 0 to 0.5
 */
public record EdgeGeometry(double place, double pullDegrees, double tiltDegrees, double friction) {
  /** Nothing is stated. */
  public static final EdgeGeometry NOT_STATED = new EdgeGeometry(0, 0, 0, 0);

  public EdgeGeometry {
    Range.require("effect of place", place, 0, 0.5, "(relative)");
    Range.require("lean of the pull", pullDegrees, 0, 45, "°");
    Range.require("tilt", tiltDegrees, 0, 45, "°");
    Range.require("friction", friction, 0, 0.5, "(relative)");
  }

  /** The four terms, named even where they are zero. */
  public List<BudgetTerm> terms() {
    return List.of(
        term(Source.PLACE, place, "by where on the filament the edge presses", "verify place"),
        term(
            Source.PULL_DIRECTION, lost(pullDegrees), "1 − cos of the lean of the pull", "a ruler"),
        term(Source.TILT, lost(tiltDegrees), "1 − cos of the tilt since calibration", "a level"),
        term(Source.FRICTION, friction, "part carried by guides", "loading and unloading"));
  }

  private static BudgetTerm term(Source source, double halfWidth, String what, String how) {
    String basis =
        halfWidth > 0
            ? what + " as half-width, stated or found"
            : what + ": 0, as nothing is stated; found by " + how;
    return BudgetTerm.relative(source, Distribution.RECTANGULAR, halfWidth / Math.sqrt(3), basis);
  }

  private static double lost(double degrees) {
    return 1 - Math.cos(Math.toRadians(degrees));
  }
}
