package snick.exchange.table;

import java.util.List;
import java.util.stream.Stream;
import snick.cut.rest.Before;
import snick.quantity.Attribute;
import snick.quantity.Values;

/**
 * A row of {@code before.csv}.
 *
 * @param cut number of the cut in the package
 * @param before what the stream had told before it
 */
public record BeforeRow(int cut, Before before) {
  /** What is told of it. */
  public static final List<Attribute<Before>> ATTRIBUTES =
      List.of(
          Attribute.whole("began_sample", "Sample that began the event", Before::began),
          Attribute.whole(
              "polarity",
              "1 if this load raises the reading, -1 if it lowers it",
              Before::polarity),
          Attribute.whole(
              "usual_polarity",
              "That of the loads before, 0 if there was none",
              Before::usualPolarity),
          Attribute.real("level_counts", "counts", "Reading at rest", b -> b.rest().levelCounts()),
          Attribute.real(
              "from_counts",
              "counts",
              "Level from which the load rose",
              b -> b.rest().fromCounts()),
          Attribute.real(
              "noise_counts",
              "counts",
              "Standard deviation of one sample at rest",
              b -> b.rest().noiseCounts()),
          Attribute.real(
              "band_counts",
              "counts",
              "Distance from rest at which a load begins",
              b -> b.rest().bandCounts()),
          Attribute.truth(
              "sure",
              "Whether the rest was long enough to trust level and noise",
              b -> b.rest().sure()),
          Attribute.truth(
              "settled",
              "Whether the last load's ringing or remainder was over",
              b -> b.rest().settled()),
          Attribute.real(
              "period_ns", "ns", "Time from one sample to the next", Before::periodNanos),
          Attribute.real(
              "zero_counts",
              "counts",
              "Reading without load, as followed over rests",
              b -> b.zero().counts()),
          Attribute.real(
              "zero_variance_counts2",
              "counts^2",
              "Variance of zero_counts",
              b -> b.zero().varianceCounts2()),
          Attribute.real(
              "zero_drift_counts_per_s",
              "counts/s",
              "How fast the zero drifts",
              b -> b.zero().driftCountsPerSecond()),
          Attribute.real(
              "zero_drift_variance",
              "counts^2/s^2",
              "Variance of that",
              b -> b.zero().driftVariance()),
          Attribute.real(
              "zero_covariance",
              "counts^2/s",
              "Covariance of zero and drift",
              b -> b.zero().covariance()),
          Attribute.seconds(
              "zero_at_s", "Time of the zero, on the axis of t_s", b -> b.zero().atNanos()));

  static List<Attribute<BeforeRow>> columns() {
    return Stream.concat(
            Stream.of(
                Attribute.<BeforeRow>whole("cut", "Number of the cut in cuts.csv", BeforeRow::cut)),
            ATTRIBUTES.stream().map(a -> a.of(BeforeRow::before)))
        .toList();
  }

  /**
   * What the current row says.
   *
   * @throws IllegalArgumentException if that cannot be
   */
  public static Before read(Values row) {
    return new Before(
        row.integer("began_sample"),
        row.integer("polarity"),
        row.integer("usual_polarity"),
        new Before.AtRest(
            row.real("level_counts"),
            row.real("from_counts"),
            row.real("noise_counts"),
            row.real("band_counts"),
            row.truth("sure"),
            row.truth("settled")),
        row.real("period_ns"),
        new Before.Zero(
            row.real("zero_counts"),
            row.real("zero_variance_counts2"),
            row.real("zero_drift_counts_per_s"),
            row.real("zero_drift_variance"),
            row.real("zero_covariance"),
            row.nanos("zero_at_s")));
  }
}
