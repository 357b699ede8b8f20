package snick.journal;

/** Where to cut next. */
public sealed interface NextPlace {
  /**
   * A free spot.
   *
   * @param place distance from the heel
   * @param clearanceMm distance to the nearest spot cut so far, or to the end of the edge, mm
   */
  record At(Place.FromHeel place, double clearanceMm) implements NextPlace {}

  /**
   * Every spot is closer to a used one than the spacing allows.
   *
   * @param widestClearanceMm the largest distance to a used spot that is left, mm
   * @param spacingMm the least distance wanted, mm
   */
  record Full(double widestClearanceMm, double spacingMm) implements NextPlace {}
}
