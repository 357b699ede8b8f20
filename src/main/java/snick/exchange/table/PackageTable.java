package snick.exchange.table;

import static snick.quantity.Attribute.Type.REAL;
import static snick.quantity.Attribute.Type.TIME;
import static snick.quantity.Attribute.Type.WHOLE;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.function.Function;
import java.util.stream.Stream;
import snick.json.Json;
import snick.quantity.Attribute;
import snick.sample.Gap;
import snick.store.record.CutForce;
import snick.store.record.CutPlace;
import snick.store.record.Derivation;

/**
 * The tables of a package: their columns and keys. No column holds free text: the tables refer to
 * the JSON files by number, so that no cell can be a formula.
 *
 * @param <R> what a row tells of
 */
public final class PackageTable<R> {
  /** A sample of a cut; {@code newtons} is NaN for none. */
  public record Sample(int cut, int index, long nanos, int counts, double newtons) {}

  /** A gap of a cut, numbered from 1. */
  public record Missing(int cut, int number, Gap gap) {}

  /** Samples of a cut that stood at the end of the range, the last included. */
  public record Run(int cut, int first, int last) {}

  private static final List<String> OF_CUT = List.of("cut");

  public static final PackageTable<PackagedCut> CUTS =
      cuts(Derivation.ATTRIBUTES, CutForce.ATTRIBUTES);

  public static final PackageTable<Sample> TRACES =
      new PackageTable<>(
          "traces.csv",
          "One row a sample: the raw readings of every cut, "
              + "from some rest before to some rest after",
          List.of("cut", "sample"),
          List.of(
              ofCut(Sample::cut),
              Attribute.whole("sample", "Number of the sample in its cut, from 0", Sample::index),
              Attribute.seconds(
                  "t_s", "Device time since the recording's first sample", Sample::nanos),
              Attribute.whole(
                  "counts",
                  "Raw reading of the converter; the end of its range if overrange",
                  Sample::counts),
              Attribute.<Sample>real(
                      "force_n",
                      "N",
                      "Force of the reading above zero by the cut's calibration",
                      Sample::newtons)
                  .atTimes()));

  public static final PackageTable<Missing> GAPS =
      new PackageTable<>(
          "gaps.csv",
          "One row a stretch in which samples of a cut are missing",
          List.of("cut", "gap"),
          List.of(
              ofCut(Missing::cut),
              Attribute.whole("gap", "Number of the gap in its cut, from 1", Missing::number),
              Attribute.<Missing>text("cause", "Why they are missing", m -> m.gap().cause().word())
                  .among(Stream.of(Gap.Cause.values()).map(Gap.Cause::word).toList()),
              Attribute.seconds(
                  "from_s",
                  "Time of the last sample before, on the axis of t_s",
                  m -> m.gap().fromNanos()),
              Attribute.seconds(
                  "to_s",
                  "Time of the first sample after, from_s if unknown",
                  m -> m.gap().toNanos()),
              Attribute.large(
                  "lost_samples",
                  "Samples known to be lost, 0 if unknown",
                  m -> m.gap().lostSamples())));

  public static final PackageTable<Run> OVERRANGE =
      new PackageTable<>(
          "overrange.csv",
          "One row a run of samples that stood at the end of the converter's range",
          List.of("cut", "first_sample"),
          List.of(
              ofCut(Run::cut),
              Attribute.whole("first_sample", "First sample of the run", Run::first),
              Attribute.whole("last_sample", "Last sample of the run", Run::last)));

  public static final PackageTable<BeforeRow> BEFORE =
      new PackageTable<>(
          "before.csv",
          "One row a cut with a trace: what the stream had told before it began. With the trace and"
              + " the response of the rig it is all that the cut's row in cuts.csv is derived from",
          List.of("cut"),
          BeforeRow.columns());

  public static final PackageTable<PackagedResult> HISTORY =
      history(Derivation.ATTRIBUTES, CutForce.ATTRIBUTES);

  public static final List<PackageTable<?>> ALL =
      List.of(CUTS, TRACES, BEFORE, GAPS, OVERRANGE, HISTORY);

  private final String file;
  private final String title;
  private final List<String> key;
  private final List<Attribute<R>> columns;
  private final Map<String, Integer> places = new LinkedHashMap<>();

  private PackageTable(String file, String title, List<String> key, List<Attribute<R>> columns) {
    this.file = file;
    this.title = title;
    this.key = key;
    this.columns = columns;
    columns.forEach(column -> places.put(column.name(), places.size()));
  }

  /** The table of cuts whose results and forces have these attributes. */
  public static PackageTable<PackagedCut> cuts(
      List<Attribute<Derivation>> derived, List<Attribute<CutForce>> forces) {
    return new PackageTable<>(
        "cuts.csv",
        "One row a cut: where it belongs and what was found in its trace",
        List.of("cut"),
        columns(
            List.of(
                Attribute.whole(
                    "cut", "Number of the cut in this package, from 1", PackagedCut::number),
                Attribute.whole(
                    "recording", "Number of the recording in rig.json", PackagedCut::recording),
                Attribute.whole(
                    "number",
                    "Number of the cut in its recording, from 1",
                    row -> row.cut().number()),
                Attribute.time(
                    "occurred_at",
                    "Host time of the break, or of the onset if it did not break",
                    row -> row.cut().occurredAt()),
                number("session", "Number of the session in journal.json", PackagedCut::session),
                Attribute.some(
                    "stage",
                    WHOLE,
                    "",
                    "Number of the stage in its session, from 1",
                    row -> row.cut().place().map(p -> p.stage().order())),
                Attribute.some(
                    "place_mm",
                    REAL,
                    "mm",
                    "Distance from the heel along the edge",
                    row -> row.cut().place().map(CutPlace::placeMm)),
                Attribute.truth(
                    "set_aside",
                    "Whether the person set the cut aside, so that it does not count",
                    row -> row.cut().setAside().isPresent()),
                number(
                    "source",
                    "Number of the source whose work it is; none: the sender's own",
                    PackagedCut::source)),
            derived.stream().map(a -> a.of(row -> row.cut().result())),
            number(
                "calibration",
                "Number of the calibration in calibration.json",
                PackagedCut::calibration),
            forces.stream().map(a -> a.ofSome(row -> row.cut().force())),
            Attribute.whole(
                "samples", "Rows of the cut in traces.csv", row -> row.cut().samples())));
  }

  /** The table of what was derived before. */
  private static PackageTable<PackagedResult> history(
      List<Attribute<Derivation>> derived, List<Attribute<CutForce>> forces) {
    return new PackageTable<>(
        "history.csv",
        "One row what was derived from a cut before what stands in cuts.csv, oldest first",
        List.of("cut", "row"),
        columns(
            List.of(
                ofCut(PackagedResult::cut),
                Attribute.whole("row", "Number of the row in its cut, from 1", PackagedResult::row),
                Attribute.whole(
                    "result",
                    "Number of the result in its cut, from 1; again for a further force",
                    row -> row.earlier().number()),
                Attribute.truth(
                    "stands",
                    "Whether cuts.csv has this very result, with a later force",
                    row -> row.earlier().stands()),
                Attribute.time(
                    "derived_at",
                    "When the result was stored",
                    row -> row.earlier().result().createdAt())),
            derived.stream().map(a -> a.of(row -> row.earlier().result())),
            number(
                "calibration",
                "Number of the calibration in calibration.json",
                PackagedResult::calibration),
            forces.stream().map(a -> a.ofSome(row -> row.earlier().force().map(f -> f.force()))),
            Attribute.some(
                "force_derived_at",
                TIME,
                "",
                "When the force was stored",
                row -> row.earlier().force().map(f -> f.createdAt()))));
  }

  private static <R> List<Attribute<R>> columns(
      List<Attribute<R>> first,
      Stream<Attribute<R>> derived,
      Attribute<R> calibration,
      Stream<Attribute<R>> force,
      Attribute<R> last) {
    return Stream.of(first.stream(), derived, Stream.of(calibration), force, Stream.of(last))
        .flatMap(part -> part)
        .toList();
  }

  private static <R> Attribute<R> ofCut(Function<R, Integer> cut) {
    return Attribute.whole("cut", "Number of the cut in cuts.csv", cut);
  }

  private static <R> Attribute<R> number(
      String name, String meaning, Function<R, OptionalInt> value) {
    return Attribute.some(name, WHOLE, "", meaning, value);
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

  public List<Attribute<R>> columns() {
    return columns;
  }

  String[] header() {
    return places.keySet().toArray(String[]::new);
  }

  /** The cells of a row. */
  public String[] cells(R row) {
    return columns.stream()
        .map(column -> column.value(row).map(v -> CellType.of(column).text(v)).orElse(""))
        .toArray(String[]::new);
  }

  /** The place of a column. */
  public int index(String column) {
    Integer place = places.get(column);
    if (place == null) {
      throw new IllegalArgumentException("no column " + column + " in " + file);
    }
    return place;
  }

  /** Table Schema of this table. */
  public Map<String, Object> schema() {
    Map<String, Object> reference = Json.object("resource", CUTS.resource(), "fields", OF_CUT);
    List<Object> ofCuts = List.of(Json.object("fields", OF_CUT, "reference", reference));
    return Json.object(
        "$schema", "https://datapackage.org/profiles/2.0/tableschema.json",
        "fields", columns.stream().map(CellType::field).toList(),
        "missingValues", List.of(""),
        "primaryKey", key,
        "foreignKeys", Json.when(!file.equals(CUTS.file), ofCuts));
  }
}
