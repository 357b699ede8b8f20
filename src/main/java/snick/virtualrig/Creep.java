package snick.virtualrig;

/** Creep of the cell: a small share of a standing load comes, and goes, slowly. */
final class Creep {
  private final double share;
  private final double timeSeconds;
  private double creptGramForce;

  Creep(FixtureSettings fixture) {
    this.share = fixture.creepShare();
    this.timeSeconds = fixture.creepSeconds();
  }

  /** Creep after {@code seconds} under this load, gf. */
  double afterGramForce(double loadGramForce, double seconds) {
    double approach = -StrictMath.expm1(-seconds / timeSeconds);
    creptGramForce += (share * loadGramForce - creptGramForce) * approach;
    return creptGramForce;
  }
}
