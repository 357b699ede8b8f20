package snick.cut.estimate;

import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * The last readings of a loading that the fall cannot have touched, averaged in bins that grow
 * backwards: fine where the loading is carried on from, coarse where only its trend matters. What
 * is kept is how far each bin lies off a straight line through all.
 */
final class EarlyCourse {
  private final CourseModel model;
  private final double[] offCounts;
  private final double lineCounts;
  private final double slopeCountsPerSecond;

  private EarlyCourse(CourseModel model, double[] meanCounts) {
    this.model = model;
    double meanSeconds = 0;
    double mean = 0;
    for (int i = 0; i < meanCounts.length; i++) {
      meanSeconds += model.share(i) * model.seconds(i);
      mean += model.share(i) * meanCounts[i];
    }
    double square = 0;
    double product = 0;
    for (int i = 0; i < meanCounts.length; i++) {
      double seconds = model.seconds(i) - meanSeconds;
      square += model.share(i) * seconds * seconds;
      product += model.share(i) * seconds * (meanCounts[i] - mean);
    }
    slopeCountsPerSecond = square > 0 ? product / square : 0;
    lineCounts = mean - slopeCountsPerSecond * meanSeconds;
    offCounts = new double[meanCounts.length];
    for (int i = 0; i < offCounts.length; i++) {
      offCounts[i] = meanCounts[i] - lineAfter(model.seconds(i));
    }
  }

  /** The course of the readings {@code from..last}, both included, as many as bins hold. */
  static EarlyCourse of(Loading l, int from, int last, CourseModel model) {
    double[] mean = new double[model.bins()];
    int at = last;
    for (int bin = mean.length - 1; bin >= 0; bin--) {
      int first = at - model.readings(bin) + 1;
      mean[bin] = meanOf(l, Math.max(from, first), at);
      at = first - 1;
    }
    fillHoles(mean, model);
    return new EarlyCourse(model, mean);
  }

  /** Mean of the usable readings; not a number if none is. */
  private static double meanOf(Loading l, int from, int to) {
    double sum = 0;
    int n = 0;
    for (int i = from; i <= to; i++) {
      if (l.usable()[i]) {
        sum += l.counts()[i];
        n++;
      }
    }
    return sum / n;
  }

  /** Bins without a usable reading lie on the line through the two nearest that have some. */
  private static void fillHoles(double[] mean, CourseModel model) {
    int[] known = IntStream.range(0, mean.length).filter(i -> !Double.isNaN(mean[i])).toArray();
    if (known.length == mean.length) {
      return;
    }
    for (int i = 0; i < mean.length; i++) {
      mean[i] = Double.isNaN(mean[i]) ? onLine(mean, known, i, model) : mean[i];
    }
  }

  private static double onLine(double[] mean, int[] known, int hole, CourseModel model) {
    if (known.length < 2) {
      return known.length == 0 ? 0 : mean[known[0]];
    }
    int above = Math.max(1, Math.min(known.length - 1, -1 - Arrays.binarySearch(known, hole)));
    int a = known[above - 1];
    int b = known[above];
    double share = (model.seconds(hole) - model.seconds(a)) / (model.seconds(b) - model.seconds(a));
    return mean[a] + share * (mean[b] - mean[a]);
  }

  CourseModel model() {
    return model;
  }

  /** How far each bin lies off the line, oldest first, counts. */
  double[] offCounts() {
    return offCounts;
  }

  /** Root mean square of how far the bins lie off, counts. */
  double scatterCounts() {
    return Math.sqrt(Arrays.stream(offCounts).map(off -> off * off).average().orElse(0));
  }

  /** The line so many seconds after the last reading, counts. */
  double lineAfter(double seconds) {
    return lineCounts + slopeCountsPerSecond * seconds;
  }

  double slopeCountsPerSecond() {
    return slopeCountsPerSecond;
  }
}
