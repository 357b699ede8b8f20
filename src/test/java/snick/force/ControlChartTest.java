package snick.force;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.List;
import org.junit.jupiter.api.Test;
import snick.force.check.EwmaChart;
import snick.force.check.IndividualsChart;

/** Control charts against the NIST/SEMATECH e-Handbook of Statistical Methods. */
class ControlChartTest {
  /** e-Handbook 6.3.2.2, flow rate: 50.81, 1.8778, 55.8041, 45.8159. */
  @Test
  void individualsOfTheHandbook() {
    double[] flow = Table.column(Table.read("handbook_6_3_2_2_individuals.csv"), "flowrate");
    IndividualsChart chart = IndividualsChart.of(flow);
    assertThat(chart.centre()).isCloseTo(50.81, within(1e-12));
    assertThat(chart.meanMovingRange()).isCloseTo(1.8778, within(5e-5));
    assertThat(chart.upper()).isCloseTo(55.8041, within(5e-5));
    assertThat(chart.lower()).isCloseTo(45.8159, within(5e-5));
    assertThat(chart.upperRange()).isCloseTo(6.1349, within(3e-4));
    assertThat(chart.signals(flow)).isEmpty();
    assertThat(chart.signals(50, 56, 45)).containsExactly(1, 2);
  }

  /** e-Handbook 6.3.2.4: averages to two decimals, limits 52.5884 and 47.4115 (truncated). */
  @Test
  void ewmaOfTheHandbook() {
    List<NamedCsvRecord> rows = Table.read("handbook_6_3_2_4_ewma.csv");
    EwmaChart chart = EwmaChart.usual(50, 2.0539);
    List<EwmaChart.Point> points = chart.chart(Table.column(rows, "x"));
    assertThat(points).hasSize(20);
    for (int i = 0; i < points.size(); i++) {
      NamedCsvRecord row = rows.get(i);
      EwmaChart.Point point = points.get(i);
      assertThat(point.average())
          .isCloseTo(Table.number(row, "ewma_published_2dp"), within(0.005 + 1e-9));
      assertThat(point.lower()).isCloseTo(Table.number(row, "lcl_exact_i"), within(1e-7));
      assertThat(point.upper()).isCloseTo(Table.number(row, "ucl_exact_i"), within(1e-7));
      assertThat(point.within()).isTrue();
    }
    assertThat(points.get(19).upper()).isCloseTo(52.5884, within(1e-4));
    assertThat(points.get(19).lower()).isCloseTo(47.4115, within(1e-4));
  }

  @Test
  void aSlowDriftShowsInTheAverageFirst() {
    double[] drifting = new double[12];
    for (int i = 0; i < drifting.length; i++) {
      drifting[i] = 0.2 * i;
    }
    List<EwmaChart.Point> points = EwmaChart.usual(0, 1).chart(drifting);
    assertThat(points.get(11).within()).isFalse();
    assertThat(new IndividualsChart(0, IndividualsChart.D2).signals(drifting)).isEmpty();
  }

  @Test
  void badValuesAreRefused() {
    assertThatThrownBy(() -> IndividualsChart.of(1)).hasMessageContaining("at least 2");
    assertThatThrownBy(() -> IndividualsChart.of(1, Double.NaN)).hasMessageContaining("value 2");
    assertThatThrownBy(() -> EwmaChart.usual(0, 0)).hasMessageContaining("sigma");
  }
}
