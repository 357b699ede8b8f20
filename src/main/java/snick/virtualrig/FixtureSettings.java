package snick.virtualrig;

/**
 * Filament, fixture and load cell as a mechanism. All figures are invented, of a plausible size.
 *
 * @param stiffnessGramForcePerMillimetre stiffness of the taut filament, gf/mm
 * @param stiffening share by which the filament is stiffer at 100 gf than at no load
 * @param partingMillis time in which the filament lets go, ms
 * @param ringHertz frequency at which fixture and cell ring after the break, Hz
 * @param ringDecayMillis time constant of the ringing, ms
 * @param ringShare first swing of the ringing as a share of the force at the break
 * @param creepShare share of a standing load that creep adds in the end
 * @param creepSeconds time constant of creep, s
 * @param gravityMetresPerSecondSquared local gravity, for hanging masses, m/s²
 */
public record FixtureSettings(
    double stiffnessGramForcePerMillimetre,
    double stiffening,
    double partingMillis,
    double ringHertz,
    double ringDecayMillis,
    double ringShare,
    double creepShare,
    double creepSeconds,
    double gravityMetresPerSecondSquared) {
  /** An invented bench. */
  public static final FixtureSettings BENCH =
      new FixtureSettings(12, 0.01, 0.8, 140, 18, 0.12, 2e-4, 180, 9.81);

  /** Nothing but the load: straight filament, instant break, no ringing, no creep. */
  public static final FixtureSettings IDEAL =
      new FixtureSettings(12, 0, 1e-3, 140, 1e-3, 0, 0, 180, 9.80665);

  public FixtureSettings {
    Range.check("stiffness, gf/mm,", stiffnessGramForcePerMillimetre, 0.01, 1e5);
    Range.check("stiffening", stiffening, 0, 1);
    Range.check("parting time, ms,", partingMillis, 1e-3, 100);
    Range.check("ringing, Hz,", ringHertz, 1, 10_000);
    Range.check("decay of ringing, ms,", ringDecayMillis, 1e-3, 1000);
    Range.check("share of ringing", ringShare, 0, 2);
    Range.check("share of creep", creepShare, 0, 0.1);
    Range.check("time of creep, s,", creepSeconds, 0.1, 1e5);
    Range.check("gravity, m/s²,", gravityMetresPerSecondSquared, 9.7, 9.9);
  }

  /** The same fixture ringing with another share of the force at the break. */
  public FixtureSettings withRingShare(double share) {
    return new FixtureSettings(
        stiffnessGramForcePerMillimetre,
        stiffening,
        partingMillis,
        ringHertz,
        ringDecayMillis,
        share,
        creepShare,
        creepSeconds,
        gravityMetresPerSecondSquared);
  }

  /** The same fixture with another parting time, ms. */
  public FixtureSettings withPartingMillis(double millis) {
    return new FixtureSettings(
        stiffnessGramForcePerMillimetre,
        stiffening,
        millis,
        ringHertz,
        ringDecayMillis,
        ringShare,
        creepShare,
        creepSeconds,
        gravityMetresPerSecondSquared);
  }
}
