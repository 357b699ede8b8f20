package snick.virtualrig.settings;

import java.util.Random;

/**
 * A taut filament under an edge: force from displacement, slightly stiffening, with short dips
 * where a burr lets it slip.
 */
public final class Filament {
  private static final double DIP_SECONDS = 0.03;

  private final FixtureSettings fixture;
  private final double[] dipsAtGramForce;
  private final double[] dipShares;
  private int nextDip;
  private double dipAgeSeconds = DIP_SECONDS;

  /** A filament with {@code dips} dips spread by chance over 45 % to 95 % of the strength. */
  public Filament(FixtureSettings fixture, double strengthGramForce, int dips, Random random) {
    this.fixture = fixture;
    this.dipsAtGramForce = new double[dips];
    this.dipShares = new double[dips];
    for (int i = 0; i < dips; i++) {
      double place = (i + 0.2 + 0.6 * random.nextDouble()) / dips;
      dipsAtGramForce[i] = strengthGramForce * (0.45 + 0.5 * place);
      dipShares[i] = 0.03 + 0.05 * random.nextDouble();
    }
  }

  /** Force after a step of {@code stepSeconds} at whose end the edge stands at this place, gf. */
  public double forceGramForce(double displacementMillimetres, double stepSeconds) {
    double linear =
        fixture.stiffnessGramForcePerMillimetre() * Math.max(0, displacementMillimetres);
    double force = linear * (1 + fixture.stiffening() * linear / 100);
    dipAgeSeconds += stepSeconds;
    if (nextDip < dipsAtGramForce.length && force >= dipsAtGramForce[nextDip]) {
      nextDip++;
      dipAgeSeconds = 0;
    }
    return force * (1 - dipShare());
  }

  private double dipShare() {
    if (dipAgeSeconds >= DIP_SECONDS) {
      return 0;
    }
    double share = dipShares[nextDip - 1];
    return share * (1 - Math.abs(2 * dipAgeSeconds / DIP_SECONDS - 1));
  }
}
