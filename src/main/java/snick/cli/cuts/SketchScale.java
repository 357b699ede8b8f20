package snick.cli.cuts;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.force.budget.Calibration;
import snick.frame.text.Column;
import snick.phrase.Phrase;
import snick.quantity.Force;

/**
 * The scale by which a sketch derived the forces that it prints: a calibration of unknown origin,
 * better than none, and without an uncertainty that anybody stated.
 */
final class SketchScale {
  /** Said wherever it is used. */
  static final Phrase WARNING = Phrase.of("warning.sketch_scale");

  private static final String BASIS = "the sketch's own scale, of unknown origin";

  private SketchScale() {}

  /** The line of readings that are a force with {@code decimals}; empty where they are counts. */
  static Optional<Calibration.Line> line(Optional<Column> reading, int decimals) {
    OptionalDouble gramForce = reading.map(Column::gramForcePerUnit).orElse(OptionalDouble.empty());
    return gramForce.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Calibration.Line(
                Math.pow(10, decimals) / gramForce.getAsDouble() / Force.NEWTONS_PER_GRAM_FORCE,
                0,
                0,
                0));
  }

  /** The same as a calibration. */
  static Optional<Calibration> calibration(Optional<Column> reading, int decimals) {
    return line(reading, decimals)
        .map(
            line ->
                Calibration.named(
                    Optional.empty(),
                    Instant.EPOCH,
                    Optional.empty(),
                    line.curve(),
                    CalibrationChoice.RANGE,
                    List.of(),
                    BASIS));
  }
}
