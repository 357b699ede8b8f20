package snick.virtualrig.settings;

import java.util.Objects;
import java.util.Optional;

/**
 * Filament, fixture and load cell as a mechanism. All figures are invented, of a plausible size.
 *
 * @param stiffnessGramForcePerMillimetre stiffness of the taut filament, gf/mm
 * @param stiffening share by which the filament is stiffer at 100 gf than at no load
 * @param parting how the filament lets go
 * @param mechanics what stands between filament and cell; none if rigid
 * @param creepShare share of a standing load that creep adds in the end
 * @param creepSeconds time constant of creep, s
 * @param gravityMetresPerSecondSquared local gravity, for hanging masses, m/s²
 */
public record FixtureSettings(
    double stiffnessGramForcePerMillimetre,
    double stiffening,
    Parting parting,
    Optional<Mechanics> mechanics,
    double creepShare,
    double creepSeconds,
    double gravityMetresPerSecondSquared) {
  /** An invented bench. */
  public static final FixtureSettings BENCH =
      new FixtureSettings(
          12, 0.01, Parting.linear(0.8), Optional.of(Mechanics.RINGING), 2e-4, 180, 9.81);

  /** Nothing but the load: straight filament, instant break, no ringing, no creep. */
  public static final FixtureSettings IDEAL =
      new FixtureSettings(12, 0, Parting.linear(1e-3), Optional.empty(), 0, 180, 9.80665);

  public FixtureSettings {
    SettingRange.check("stiffness, gf/mm,", stiffnessGramForcePerMillimetre, 0.01, 1e5);
    SettingRange.check("stiffening", stiffening, 0, 1);
    Objects.requireNonNull(parting);
    Objects.requireNonNull(mechanics);
    SettingRange.check("share of creep", creepShare, 0, 0.1);
    SettingRange.check("time of creep, s,", creepSeconds, 0.1, 1e5);
    SettingRange.check("gravity, m/s²,", gravityMetresPerSecondSquared, 9.7, 9.9);
  }

  /** The same fixture, its filament parting in another way. */
  public FixtureSettings with(Parting other) {
    return with(other, mechanics);
  }

  /** The same on these mechanics. */
  public FixtureSettings with(Mechanics other) {
    return with(parting, Optional.of(other));
  }

  private FixtureSettings with(Parting parting, Optional<Mechanics> mechanics) {
    return new FixtureSettings(
        stiffnessGramForcePerMillimetre,
        stiffening,
        parting,
        mechanics,
        creepShare,
        creepSeconds,
        gravityMetresPerSecondSquared);
  }
}
