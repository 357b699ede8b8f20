package snick.cli.cuts;

import java.time.Instant;
import java.util.Optional;
import picocli.CommandLine.Option;
import snick.cli.terminal.Refusal;
import snick.force.budget.Calibration;
import snick.force.fit.ForceRange;
import snick.quantity.Force;

/** A straight-line calibration typed in. */
public final class CalibrationChoice {
  /** Where a line that was typed in holds. */
  static final ForceRange RANGE = ForceRange.upToNewtons(1e3);

  /** Below it a count is worth over 200 gf: less than newtons printed whole, 0.0098. */
  private static final double LEAST_COUNTS_PER_GF = 0.005;

  /** Above it a converter of 24 bits is full at a gram-force. */
  private static final double MOST_COUNTS_PER_GF = 1e7;

  @Option(
      names = "--counts-per-gf",
      paramLabel = "N",
      description = "Typed-in straight line: counts (or printed units) for each gram-force.")
  private Double countsPerGramForce;

  @Option(
      names = "--u-counts-per-gf",
      paramLabel = "N",
      defaultValue = "0",
      description = "Its standard uncertainty (default: ${DEFAULT-VALUE}).")
  private double uncertaintyCountsPerGramForce;

  /**
   * The calibration that was typed in; empty if none was. It was typed for the readings as they are
   * printed: where those have decimals, one count is a unit of the last digit.
   *
   * @param decimals digits after the point that a count stands for
   * @throws Refusal if it cannot be
   */
  public Optional<Calibration> given(int decimals) {
    return line(decimals)
        .map(line -> Calibration.straightLine(Optional.empty(), Instant.EPOCH, line, RANGE));
  }

  /** The line of {@link #given} alone. */
  Optional<Calibration.Line> line(int decimals) {
    if (countsPerGramForce == null) {
      return Optional.empty();
    }
    requirePositive();
    double countsPerNewton = Math.pow(10, decimals) / Force.NEWTONS_PER_GRAM_FORCE;
    return Optional.of(
        new Calibration.Line(
            countsPerGramForce * countsPerNewton,
            uncertaintyCountsPerGramForce * countsPerNewton,
            0,
            0));
  }

  /**
   * Refuses what cannot be a line; nothing typed in is none.
   *
   * @throws Refusal naming the value
   */
  void requirePositive() {
    if (countsPerGramForce != null && !(countsPerGramForce > 0)) {
      throw Refusal.usage(
          "--counts-per-gf "
              + countsPerGramForce
              + " is not above 0; a cell that falls under load is recognised by itself, type the size");
    }
    if (countsPerGramForce != null
        && !(countsPerGramForce >= LEAST_COUNTS_PER_GF
            && countsPerGramForce <= MOST_COUNTS_PER_GF)) {
      throw Refusal.usage(
          "--counts-per-gf %s is outside %s to %s; was gf for each count typed? Then type %s",
          countsPerGramForce,
          LEAST_COUNTS_PER_GF,
          MOST_COUNTS_PER_GF,
          (float) (1 / countsPerGramForce));
    }
    if (!(uncertaintyCountsPerGramForce >= 0
        && uncertaintyCountsPerGramForce <= MOST_COUNTS_PER_GF)) {
      throw Refusal.usage(
          "--u-counts-per-gf %s is outside 0 to %s",
          uncertaintyCountsPerGramForce, MOST_COUNTS_PER_GF);
    }
  }
}
