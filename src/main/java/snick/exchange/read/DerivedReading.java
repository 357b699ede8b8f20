package snick.exchange.read;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.stream.Collectors;
import snick.cut.Cut;
import snick.cut.Flag;
import snick.cut.Outcome;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.exchange.json.RefusedPackage;
import snick.exchange.table.CsvRows;
import snick.exchange.table.Table;
import snick.force.budget.DerivedForce;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.store.record.CutForce;

/** Reads what was derived from a trace: the columns that cuts.csv and history.csv share. */
final class DerivedReading {
  private final CsvRows rows;
  private final Table table;
  private final PackageContents contents;

  DerivedReading(CsvRows rows, Table table, PackageContents contents) {
    this.rows = rows;
    this.table = table;
    this.contents = contents;
  }

  private int at(String column) {
    return table.index(column);
  }

  /** The number in a column that names an item of a list; empty if the cell is. */
  OptionalInt reference(String column, List<?> items) {
    if (rows.empty(at(column))) {
      return OptionalInt.empty();
    }
    int number = rows.integer(at(column));
    if (!(number >= 1 && number <= items.size())) {
      throw rows.refused(column + " " + number + " is not in the package");
    }
    return OptionalInt.of(number);
  }

  /** What is stated of a trace. */
  Cut cut(int number, Trace trace) {
    OptionalLong breakNanos =
        rows.empty(at("break_s"))
            ? OptionalLong.empty()
            : OptionalLong.of(rows.nanos(at("break_s")));
    return new Cut(
        number,
        Outcome.valueOf(rows.text(at("outcome")).toUpperCase(Locale.ROOT)),
        rows.integer(at("polarity")),
        rows.nanos(at("onset_s")),
        breakNanos,
        peak(),
        new Cut.Shape(
            orNaN("loading_rate_counts_per_s"),
            rows.nanos(at("fall_s")),
            rows.integer(at("dips")),
            rows.integer(at("ramp_samples"))),
        new Cut.Rest(
            orNaN("zero_before_counts"), orNaN("zero_after_counts"), orNaN("noise_counts")),
        flags(),
        trace,
        contents.response(rows.text(at("response"))));
  }

  private double orNaN(String column) {
    return rows.real(at(column)).orElse(Double.NaN);
  }

  private Optional<Peak> peak() {
    return rows.empty(at("observed_max_counts"))
        ? Optional.empty()
        : Optional.of(
            new Peak(
                orNaN("observed_max_counts"),
                orNaN("estimate_counts"),
                orNaN("u_estimate_counts")));
  }

  private Set<Flag> flags() {
    String words = rows.text(at("flags"));
    return words.isEmpty()
        ? Set.of()
        : Arrays.stream(words.split(" ")).map(this::flag).collect(Collectors.toUnmodifiableSet());
  }

  private Flag flag(String word) {
    return Arrays.stream(Flag.values())
        .filter(flag -> flag.word().equals(word))
        .findFirst()
        .orElseThrow(
            () -> rows.refused("flag '" + RefusedPackage.shown(word) + "' is not known here"));
  }

  int detectorVersion() {
    return rows.integer(at("detector_version"));
  }

  /** Number of the calibration that the force was derived with; empty if there is no force. */
  OptionalInt calibration() {
    return reference("calibration", contents.calibrations());
  }

  /** The stated force. */
  CutForce force(int calibration) {
    String id = contents.calibration(calibration).id();
    MeasuredForce force = MeasuredForce.ofNewtons(orNaN("force_n"), orNaN("u_force_n"));
    DerivedForce estimate =
        rows.text(at("in_range")).equals("true")
            ? new DerivedForce.Inside(id, force, degreesOfFreedom())
            : new DerivedForce.Outside(id, force, contents.calibration(calibration).range());
    return new CutForce(estimate, Force.ofNewtons(orNaN("observed_max_n")));
  }

  private double degreesOfFreedom() {
    double value = orNaN("degrees_of_freedom");
    if (!(value > 0)) {
      throw rows.refused("degrees_of_freedom is " + value + ", not above 0");
    }
    return value;
  }
}
