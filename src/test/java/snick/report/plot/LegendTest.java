package snick.report.plot;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.geom.Rectangle2D;
import java.util.List;
import org.junit.jupiter.api.Test;
import snick.phrase.Words;

class LegendTest {
  private static final int WIDTH = 500;
  private static final int CHART_HEIGHT = 300;

  private static ForceChart chart(String... names) {
    ForceChart chart = new ForceChart(Words.english(), "t", "x").quantity("y", 0, 1).fromTo(0, 1);
    for (String name : names) {
      chart.level(name, Look.INK, Pen.MEDIUM, 0.5);
    }
    return chart;
  }

  private static void assertInsideAndApart(List<Rectangle2D> places, int width, int height) {
    assertThat(places).allMatch(new Rectangle2D.Double(0, 0, width, height)::contains);
    for (Rectangle2D one : places) {
      assertThat(places.stream().filter(one::intersects)).containsExactly(one);
    }
  }

  @Test
  void namesThatFitStandInOneRow() {
    Legend legend = new Legend(chart("mean", "95 % interval").chart(), WIDTH);
    List<Rectangle2D> places = legend.places(WIDTH, CHART_HEIGHT);
    assertThat(places).hasSize(2);
    assertThat(places.get(0).getY()).isEqualTo(places.get(1).getY());
    assertInsideAndApart(places, WIDTH, CHART_HEIGHT + legend.height());
  }

  @Test
  void longNamesTakeFurtherRowsAndTheLongestIsShortened() {
    String[] names = {"short", "a".repeat(40), "b".repeat(60), "c".repeat(120), "brief"};
    Legend legend = new Legend(chart(names).chart(), WIDTH);
    List<Rectangle2D> places = legend.places(WIDTH, CHART_HEIGHT);
    assertThat(places).hasSize(5);
    assertInsideAndApart(places, WIDTH, CHART_HEIGHT + legend.height());
  }

  @Test
  void besideTheChartTheyStandOneUnderAnother() {
    String[] names = {"mean", "limits of the mean", "d".repeat(120)};
    Legend legend = new Legend(chart(names).namesBeside().chart(), WIDTH);
    List<Rectangle2D> places = legend.places(WIDTH, CHART_HEIGHT);
    assertInsideAndApart(places, WIDTH, CHART_HEIGHT);
    assertThat(places).allMatch(place -> place.getX() >= WIDTH - legend.width());
    assertThat(legend.width()).isLessThan(WIDTH / 2);
    assertThat(legend.height()).isZero();
  }

  @Test
  void whatIsNotNamedTakesNoRoom() {
    ForceChart chart = chart();
    chart.level("hidden", Look.INK, Pen.MEDIUM, 0.5).setShowInLegend(false);
    Legend legend = new Legend(chart.chart(), WIDTH);
    assertThat(legend.places(WIDTH, CHART_HEIGHT)).isEmpty();
    assertThat(legend.height()).isZero();
  }
}
