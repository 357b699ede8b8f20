package snick.report.plot;

import java.awt.BasicStroke;
import java.awt.Color;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.function.ToDoubleFunction;
import snick.force.budget.Calibration;
import snick.force.budget.CombinedUncertainty;
import snick.phrase.Words;
import snick.quantity.Force;

/** Chart of the uncertainty of a calibration over its range. */
public final class BudgetPlot {
  private static final int WIDTH = 820;
  private static final int HEIGHT = 400;
  private static final double ROOM = 1.08;
  private static final int ABOUT_POINTS = 20;
  private static final int SOURCES_SHOWN = 4;
  private static final Color[] COLORS = {Look.BLUE, Look.VERMILION, Look.GREEN, Look.PURPLE};
  private static final BasicStroke[] STROKES = {
    Pen.DASHED, Pen.DOTTED, Pen.DASH_DOTTED, Pen.DASHED
  };

  private BudgetPlot() {}

  /** Expanded uncertainty over the range, and its largest sources. */
  public static Picture of(Calibration calibration, Words words) {
    List<CombinedUncertainty> over = over(calibration);
    double[] x = each(over, u -> gramForce(u.newtons()));
    double[] expanded = each(over, u -> gramForce(u.expandedNewtons()));
    ForceChart chart =
        new ForceChart(words, words.say("draw.budget"), words.say("draw.force_axis"))
            .quantity(
                words.say("draw.budget_axis"),
                0,
                ROOM * Arrays.stream(expanded).max().orElseThrow())
            .fromTo(0, ROOM * x[x.length - 1])
            .namesBeside();
    chart.line(words.say("draw.expanded"), Look.INK, Pen.MEDIUM, x, expanded);
    List<Integer> largest = largest(over.get(over.size() - 1));
    for (int i = 0; i < largest.size(); i++) {
      int part = largest.get(i);
      chart.line(
          words.named("budget", over.get(0).parts().get(part).source()),
          COLORS[i],
          STROKES[i],
          x,
          each(over, u -> gramForce(u.parts().get(part).standardUncertaintyNewtons())));
    }
    return chart.alone(WIDTH, HEIGHT);
  }

  private static double[] each(
      List<CombinedUncertainty> over, ToDoubleFunction<CombinedUncertainty> value) {
    return over.stream().mapToDouble(value).toArray();
  }

  /** The uncertainty at round forces over the range, in gf, and at its end. */
  private static List<CombinedUncertainty> over(Calibration calibration) {
    double to = gramForce(calibration.range().to().newtons());
    double step = round(to / ABOUT_POINTS);
    List<CombinedUncertainty> over = new ArrayList<>();
    for (int i = 0; i * step < to * (1 - 1e-9); i++) {
      over.add(at(calibration, i * step));
    }
    over.add(at(calibration, to));
    return over;
  }

  private static CombinedUncertainty at(Calibration calibration, double gramForce) {
    double newtons = Force.ofGramForce(gramForce).newtons();
    return new CombinedUncertainty(newtons, calibration.contributions(newtons, 0));
  }

  /** 1, 2 or 5 times a power of ten, not below {@code step}. */
  private static double round(double step) {
    double power = Math.pow(10, Math.floor(Math.log10(step)));
    double leading = step / power;
    return power * (leading <= 1 ? 1 : leading <= 2 ? 2 : leading <= 5 ? 5 : 10);
  }

  private static List<Integer> largest(CombinedUncertainty at) {
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < at.parts().size(); i++) {
      if (at.parts().get(i).standardUncertaintyNewtons() > 0) {
        order.add(i);
      }
    }
    order.sort(
        Comparator.comparingDouble((Integer i) -> -at.parts().get(i).standardUncertaintyNewtons()));
    return order.subList(0, Math.min(SOURCES_SHOWN, order.size()));
  }

  public static double gramForce(double newtons) {
    return newtons / Force.NEWTONS_PER_GRAM_FORCE;
  }
}
