package snick.force.mass;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.List;
import org.junit.jupiter.api.Test;
import snick.force.Table;
import snick.quantity.Mass;

/** Masses, gravity, air and water against published and computed figures. */
class LoadTest {
  /** OIML R 111-1 table 1, read on public pages that quote it. */
  @Test
  void classLimitsAreThoseOfTheTable() {
    List<NamedCsvRecord> rows = Table.read("oiml_r111_mpe_mg.csv");
    assertThat(rows).hasSize(12);
    for (NamedCsvRecord row : rows) {
      Mass nominal = Mass.ofGrams(Table.number(row, "nominal_g"));
      for (MassClass massClass : MassClass.values()) {
        assertThat(massClass.limit(nominal).grams() * 1000)
            .as(nominal + " " + massClass)
            .isCloseTo(Table.number(row, massClass.name()), within(1e-9));
      }
    }
  }

  @Test
  void aClassAloneIsARectangularUncertainty() {
    ReferenceMass mass = ReferenceMass.ofClass(MassClass.M1, Mass.ofGrams(200));
    assertThat(mass.standardUncertainty().grams()).isCloseTo(0.010 / Math.sqrt(3), within(1e-15));
    assertThat(mass.name()).isEqualTo("200 g M1");
  }

  @Test
  void unknownClassesAndMassesAreNamed() {
    assertThatThrownBy(() -> MassClass.named("M9"))
        .hasMessageContaining("M9")
        .hasMessageContaining("E2, F1");
    assertThatThrownBy(() -> MassClass.M1.limit(Mass.ofGrams(30))).hasMessageContaining("30.0 g");
    assertThat(MassClass.named(" m1 ")).isEqualTo(MassClass.M1);
  }

  /** Computed with exact arithmetic from the definition of conventional mass (OIML D 28). */
  @Test
  void conventionalMassAndBuoyancyGiveTheForce() {
    for (NamedCsvRecord row : Table.read("buoyancy_force_checks.csv")) {
      ReferenceMass mass =
          ReferenceMass.stated(
              "check",
              new Mass(Table.number(row, "conventional_mass_kg")),
              Mass.ofGrams(0),
              Table.number(row, "density_kg_m3"));
      Gravity gravity = Gravity.measured(Table.number(row, "g_m_s2"), 0);
      AirDensity air = new AirDensity(Table.number(row, "air_density_kg_m3"), 0, "check");
      double force = Load.of(mass).exerted(gravity, air).force().newtons();
      double expected = Table.number(row, "force_N_full");
      assertThat(force).isCloseTo(expected, within(1e-11 * expected));
      double trueMass = Table.number(row, "true_mass_kg");
      assertThat(mass.trueMassKilograms()).isCloseTo(trueMass, within(1e-11 * trueMass));
    }
  }

  @Test
  void massesOfOneLoadErrTogether() {
    ReferenceMass a = ReferenceMass.ofClass(MassClass.M1, Mass.ofGrams(200));
    ReferenceMass b = ReferenceMass.ofClass(MassClass.M1, Mass.ofGrams(100));
    Gravity gravity = Gravity.measured(9.80665, 0.001);
    Load.Exerted both = new Load(List.of(a, b)).exerted(gravity, AirDensity.standard());
    double alone = Load.of(a).exerted(gravity, AirDensity.standard()).byMassesNewtons();
    double other = Load.of(b).exerted(gravity, AirDensity.standard()).byMassesNewtons();
    assertThat(both.byMassesNewtons()).isCloseTo(alone + other, within(1e-15));
    assertThat(both.byGravityNewtons() / both.force().newtons())
        .isCloseTo(0.001 / 9.80665, within(1e-12));
    assertThat(both.byBuoyancyNewtons())
        .isCloseTo(0.3 * 9.80665 / 8000 * 0.12 / Math.sqrt(3), within(1e-12));
  }

  /** CIPM-2007; computed from the constants read in a public library. */
  @Test
  void airDensityAgreesWithTheFormula() {
    for (NamedCsvRecord row : Table.read("air_density_checks.csv")) {
      double t = Table.number(row, "t_degC");
      double p = Table.number(row, "p_hPa");
      AirDensity.Weather weather = exact(t, p, Table.number(row, "rh_percent"));
      if (t >= 15 && t <= 27) {
        assertThat(AirDensity.cipm2007(weather).kilogramsPerCubicMetre())
            .isCloseTo(Table.number(row, "cipm2007_kg_m3"), within(1e-7));
      }
    }
    AirDensity.Weather usual = exact(20, 1013.25, 50);
    assertThat(AirDensity.cipm2007(usual).kilogramsPerCubicMetre())
        .isCloseTo(1.1993139, within(5e-8));
  }

  @Test
  void airOutsideTheFormulasIsRefused() {
    assertThatThrownBy(() -> AirDensity.cipm2007(exact(40, 1013, 40)))
        .hasMessageContaining("40.0 °C")
        .hasMessageContaining("15 to 27");
    assertThatThrownBy(() -> AirDensity.cipm2007(exact(20, Double.NaN, 40)))
        .hasMessageContaining("pressure");
  }

  @Test
  void readingsOfTheWeatherCarryTheirUncertainty() {
    AirDensity air = AirDensity.cipm2007(new AirDensity.Weather(20, 1013.25, 50, 2, 5, 10));
    double byTemperature = 1.1993 / 293.15 * 2;
    double byPressure = 1.1993 / 1013.25 * 5;
    assertThat(air.standardUncertainty())
        .isCloseTo(Math.hypot(byTemperature, byPressure), within(0.1 * byTemperature));
  }

  /** Somigliana with WGS 84: poles and equator are defining figures, the rest computed. */
  @Test
  void normalGravityOverLatitude() {
    for (NamedCsvRecord row : Table.read("gravity_normal_checks.csv")) {
      assertThat(Gravity.at(Table.number(row, "lat_deg"), 0).metresPerSecondSquared())
          .isCloseTo(Table.number(row, "somigliana_wgs84"), within(2e-10));
    }
    assertThat(Gravity.at(45, 1000).metresPerSecondSquared())
        .isCloseTo(9.803112943553, within(1e-11));
    assertThat(Gravity.at(-45, 0))
        .extracting(Gravity::metresPerSecondSquared)
        .isEqualTo(Gravity.at(45, 0).metresPerSecondSquared());
  }

  /** Stations of USGS, NOAA NCEI and PTB; sources in the README beside the table. */
  @Test
  void measuredStationsLieWithinTheStatedBand() {
    List<NamedCsvRecord> rows = Table.read("gravity_observed_vs_model.csv");
    assertThat(rows).hasSize(10);
    for (NamedCsvRecord row : rows) {
      Gravity model = Gravity.at(Table.number(row, "lat_deg"), Table.number(row, "height_m"));
      assertThat(model.metresPerSecondSquared())
          .as(row.getField("station"))
          .isCloseTo(Table.number(row, "g_observed"), within(5e-4));
      assertThat(model.standardUncertainty())
          .isCloseTo(model.metresPerSecondSquared() * 5e-5 / Math.sqrt(3), within(1e-9));
    }
  }

  @Test
  void latitudeOffTheGlobeIsRefused() {
    assertThatThrownBy(() -> Gravity.at(91, 0))
        .hasMessageContaining("latitude 91.0 ° is outside -90 to 90");
    assertThatThrownBy(() -> Gravity.at(Double.NaN, 0)).hasMessageContaining("latitude");
    assertThatThrownBy(() -> Gravity.at(45, 10_000)).hasMessageContaining("height");
    assertThatThrownBy(() -> Gravity.measured(98, 0)).hasMessageContaining("gravity 98.0");
  }

  /** CIPM table values of Tanaka et al. 2001, kg/m³: from memory. */
  @Test
  void waterDensityOverTemperature() {
    assertThat(WaterDensity.kilogramsPerCubicMetre(4)).isCloseTo(999.9749, within(1e-4));
    assertThat(WaterDensity.kilogramsPerCubicMetre(20)).isCloseTo(998.2067, within(1e-4));
    assertThat(WaterDensity.kilogramsPerCubicMetre(25)).isCloseTo(997.0470, within(1e-4));
    assertThatThrownBy(() -> WaterDensity.kilogramsPerCubicMetre(41)).hasMessageContaining("41");
  }

  @Test
  void certificatesAndTolerancesBecomeStandardUncertainties() {
    ReferenceMass certified =
        ReferenceMass.certified("a", Mass.ofGrams(200.001), Mass.ofGrams(0.003), 2);
    assertThat(certified.standardUncertainty().grams()).isCloseTo(0.0015, within(1e-15));
    ReferenceMass coin = ReferenceMass.toleranced("c", Mass.ofGrams(5), Mass.ofGrams(0.19), 8900);
    assertThat(coin.standardUncertainty().grams()).isCloseTo(0.1097, within(1e-4));
    assertThatThrownBy(() -> ReferenceMass.certified("a", Mass.ofGrams(200), Mass.ofGrams(1), 0))
        .hasMessageContaining("coverage factor");
    assertThatThrownBy(() -> ReferenceMass.stated("a", Mass.ofGrams(0), Mass.ofGrams(0), 8000))
        .hasMessageContaining("above 0");
  }

  private static AirDensity.Weather exact(double celsius, double hectopascals, double percent) {
    return new AirDensity.Weather(celsius, hectopascals, percent, 0, 0, 0);
  }
}
