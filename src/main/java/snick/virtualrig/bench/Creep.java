package snick.virtualrig.bench;

import snick.virtualrig.settings.FixtureSettings;

/** Creep of the cell: a small share of a standing load comes, and goes, slowly. */
public final class Creep {
  private final double share;
  private final double timeSeconds;
  private double creptGramForce;
  private double stepSeconds;
  private double approach;

  public Creep(FixtureSettings fixture) {
    this.share = fixture.creepShare();
    this.timeSeconds = fixture.creepSeconds();
  }

  /** Creep after {@code seconds} under this load, gf. */
  public double afterGramForce(double loadGramForce, double seconds) {
    if (seconds != stepSeconds) {
      stepSeconds = seconds;
      approach = -StrictMath.expm1(-seconds / timeSeconds);
    }
    creptGramForce += (share * loadGramForce - creptGramForce) * approach;
    return creptGramForce;
  }
}
