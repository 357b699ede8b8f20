package snick.exchange.table;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import snick.cut.Outcome;
import snick.sample.Gap;

/**
 * The tables of a package: their columns and keys. No column holds free text: the tables refer to
 * the JSON files by number, so that no cell can be a formula.
 */
public final class Table {
  /** What was derived from a trace: the result, and the force of its peak. */
  private static final List<Column> DERIVED =
      List.of(
          Column.word("outcome", "How the loading ended", words(Outcome.values(), Outcome::word)),
          Column.integer("polarity", "1 if load raises the reading, -1 if it lowers it"),
          Column.number("onset_s", "s", "Time at which loading began, on the axis of t_s"),
          Column.number("break_s", "s", "Time of the break, on the axis of t_s").inSomeRows(),
          Column.number(
                  "observed_max_counts", "counts", "Largest sample above zero, spikes left out")
              .inSomeRows(),
          Column.number(
                  "estimate_counts", "counts", "Estimate of the reading above zero at the break")
              .inSomeRows(),
          Column.number(
                  "u_estimate_counts", "counts", "Standard uncertainty of estimate_counts alone")
              .inSomeRows(),
          Column.number("loading_rate_counts_per_s", "counts/s", "Slope before the break")
              .inSomeRows(),
          Column.number("fall_s", "s", "Time of the fall from 90 % to 10 % of the peak"),
          Column.integer("dips", "Dips before the peak larger than noise"),
          Column.integer("ramp_samples", "Samples between onset and peak"),
          Column.number("zero_before_counts", "counts", "Mean reading at rest before").inSomeRows(),
          Column.number("zero_after_counts", "counts", "Mean reading at rest after").inSomeRows(),
          Column.number("noise_counts", "counts", "Standard deviation of one sample at rest")
              .inSomeRows(),
          Column.word(
                  "flags",
                  "What to know before trusting the number, words parted by spaces",
                  List.of())
              .inSomeRows(),
          Column.integer("detector_version", "Version of the detector that found this"),
          Column.word(
                  "response",
                  "Response of the rig in rig.json that it was derived with; none: nothing was known",
                  List.of())
              .inSomeRows(),
          Column.integer("calibration", "Number of the calibration in calibration.json")
              .inSomeRows(),
          Column.truth("in_range", "Whether the force lies in the calibrated range").inSomeRows(),
          Column.number("force_n", "N", "Force at the break: estimate_counts by the calibration")
              .inSomeRows(),
          Column.number("u_force_n", "N", "Combined standard uncertainty of force_n").inSomeRows(),
          Column.number("degrees_of_freedom", "", "Effective degrees of freedom of u_force_n")
              .inSomeRows(),
          Column.number("observed_max_n", "N", "Force of the largest sample").inSomeRows());

  public static final Table CUTS =
      new Table(
          "cuts.csv",
          "One row a cut: where it belongs and what was found in its trace",
          List.of("cut"),
          List.of(
              Column.integer("cut", "Number of the cut in this package, from 1"),
              Column.integer("recording", "Number of the recording in rig.json"),
              Column.integer("number", "Number of the cut in its recording, from 1"),
              Column.time(
                  "occurred_at", "Host time of the break, or of the onset if it did not break"),
              Column.integer("session", "Number of the session in journal.json").inSomeRows(),
              Column.integer("stage", "Number of the stage in its session, from 1").inSomeRows(),
              Column.number("place_mm", "mm", "Distance from the heel along the edge").inSomeRows(),
              Column.truth(
                  "set_aside", "Whether the person set the cut aside, so that it does not count"),
              Column.integer(
                      "source", "Number of the source whose work it is; none: the sender's own")
                  .inSomeRows()),
          DERIVED,
          List.of(Column.integer("samples", "Rows of the cut in traces.csv")));

  public static final Table TRACES =
      new Table(
          "traces.csv",
          "One row a sample: the raw readings of every cut, from some rest before to some rest after",
          List.of("cut", "sample"),
          Column.integer("cut", "Number of the cut in cuts.csv"),
          Column.integer("sample", "Number of the sample in its cut, from 0"),
          Column.number("t_s", "s", "Device time since the recording's first sample"),
          Column.integer(
              "counts", "Raw reading of the converter; the end of its range if overrange"),
          Column.number("force_n", "N", "Force of the reading above zero by the cut's calibration")
              .inSomeRows());

  public static final Table GAPS =
      new Table(
          "gaps.csv",
          "One row a stretch in which samples of a cut are missing",
          List.of("cut", "gap"),
          Column.integer("cut", "Number of the cut in cuts.csv"),
          Column.integer("gap", "Number of the gap in its cut, from 1"),
          Column.word("cause", "Why they are missing", words(Gap.Cause.values(), Table::causeWord)),
          Column.number("from_s", "s", "Time of the last sample before, on the axis of t_s"),
          Column.number("to_s", "s", "Time of the first sample after, from_s if unknown"),
          Column.integer("lost_samples", "Samples known to be lost, 0 if unknown"));

  public static final Table OVERRANGE =
      new Table(
          "overrange.csv",
          "One row a run of samples that stood at the end of the converter's range",
          List.of("cut", "first_sample"),
          Column.integer("cut", "Number of the cut in cuts.csv"),
          Column.integer("first_sample", "First sample of the run"),
          Column.integer("last_sample", "Last sample of the run"));

  public static final Table BEFORE =
      new Table(
          "before.csv",
          "One row a cut with a trace: what the stream had told before it began. With the trace and the"
              + " response of the rig it is all that the cut's row in cuts.csv is derived from",
          List.of("cut"),
          Column.integer("cut", "Number of the cut in cuts.csv"),
          Column.integer("began_sample", "Sample that began the event"),
          Column.integer("polarity", "1 if this load raises the reading, -1 if it lowers it"),
          Column.integer("usual_polarity", "That of the loads before, 0 if there was none"),
          Column.number("level_counts", "counts", "Reading at rest"),
          Column.number("from_counts", "counts", "Level from which the load rose"),
          Column.number("noise_counts", "counts", "Standard deviation of one sample at rest"),
          Column.number("band_counts", "counts", "Distance from rest at which a load begins"),
          Column.truth("sure", "Whether the rest was long enough to trust level and noise"),
          Column.truth("settled", "Whether the last load's ringing or remainder was over"),
          Column.number("period_ns", "ns", "Time from one sample to the next"),
          Column.number("zero_counts", "counts", "Reading without load, as followed over rests"),
          Column.number("zero_variance_counts2", "counts^2", "Variance of zero_counts"),
          Column.number("zero_drift_counts_per_s", "counts/s", "How fast the zero drifts"),
          Column.number("zero_drift_variance", "counts^2/s^2", "Variance of that"),
          Column.number("zero_covariance", "counts^2/s", "Covariance of zero and drift"),
          Column.number("zero_at_s", "s", "Time of the zero, on the axis of t_s"));

  public static final Table HISTORY =
      new Table(
          "history.csv",
          "One row what was derived from a cut before what stands in cuts.csv, oldest first",
          List.of("cut", "row"),
          List.of(
              Column.integer("cut", "Number of the cut in cuts.csv"),
              Column.integer("row", "Number of the row in its cut, from 1"),
              Column.integer(
                  "result", "Number of the result in its cut, from 1; again for a further force"),
              Column.truth("stands", "Whether cuts.csv has this very result, with a later force"),
              Column.time("derived_at", "When the result was stored")),
          DERIVED,
          List.of(Column.time("force_derived_at", "When the force was stored").inSomeRows()));

  public static final List<Table> ALL = List.of(CUTS, TRACES, BEFORE, GAPS, OVERRANGE, HISTORY);

  private final String file;
  private final String title;
  private final List<String> key;
  private final List<Column> columns;

  private Table(String file, String title, List<String> key, Column... columns) {
    this(file, title, key, List.of(columns), List.of(), List.of());
  }

  private Table(
      String file,
      String title,
      List<String> key,
      List<Column> first,
      List<Column> then,
      List<Column> last) {
    this.file = file;
    this.title = title;
    this.key = key;
    this.columns =
        Stream.of(first, then, last).flatMap(List::stream).collect(Collectors.toUnmodifiableList());
  }

  private static <E> List<String> words(E[] values, Function<E, String> word) {
    return Arrays.stream(values).map(word).toList();
  }

  public static String causeWord(Gap.Cause cause) {
    return cause.name().toLowerCase(Locale.ROOT);
  }

  /** Name of the table among the package's resources. */
  public String resource() {
    return file.substring(0, file.indexOf('.'));
  }

  public String file() {
    return file;
  }

  public String title() {
    return title;
  }

  public List<Column> columns() {
    return columns;
  }

  String[] header() {
    return columns.stream().map(Column::name).toArray(String[]::new);
  }

  /** The place of a column. */
  public int index(String column) {
    for (int i = 0; i < columns.size(); i++) {
      if (columns.get(i).name().equals(column)) {
        return i;
      }
    }
    throw new IllegalArgumentException("no column " + column + " in " + file);
  }

  /** Table Schema of this table. */
  public Map<String, Object> schema() {
    Map<String, Object> schema = new LinkedHashMap<>();
    schema.put("$schema", "https://datapackage.org/profiles/2.0/tableschema.json");
    schema.put("fields", columns.stream().map(Column::field).toList());
    schema.put("missingValues", List.of(""));
    schema.put("primaryKey", key);
    if (this != CUTS) {
      Map<String, Object> reference = new LinkedHashMap<>();
      reference.put("resource", "cuts");
      reference.put("fields", List.of("cut"));
      Map<String, Object> foreignKey = new LinkedHashMap<>();
      foreignKey.put("fields", List.of("cut"));
      foreignKey.put("reference", reference);
      schema.put("foreignKeys", new ArrayList<>(List.of(foreignKey)));
    }
    return schema;
  }
}
