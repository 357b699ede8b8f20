package snick.force.reading;

/**
 * One reading of a calibration as the fit sees it.
 *
 * @param run number of the run, from 1
 * @param direction up or down
 * @param load name of the load
 * @param newtons force of the load, N
 * @param counts deflection, counts
 */
public record Deflection(
    int run, Direction direction, String load, double newtons, double counts) {}
