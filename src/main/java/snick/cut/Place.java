package snick.cut;

/**
 * Where the loading is thought to end, and how well that explains the samples.
 *
 * @param kernel filter
 * @param time instant of the break, periods
 * @param forceCounts force there, counts
 * @param onset instant at which the loading began, periods; minus infinity if it does not matter
 * @param logEvidence logarithm of the evidence, up to a constant
 */
record Place(Kernel kernel, double time, double forceCounts, double onset, double logEvidence) {
  Place with(Kernel other) {
    return new Place(other, time, forceCounts, onset, logEvidence);
  }
}
