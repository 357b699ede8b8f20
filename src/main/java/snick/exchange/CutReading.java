package snick.exchange;

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
import snick.force.DerivedForce;
import snick.quantity.Force;
import snick.quantity.MeasuredForce;
import snick.store.CutForce;

/** Reads one row of {@code cuts.csv}. */
final class CutReading {
  private final CsvRows rows;
  private final PackageContents contents;

  CutReading(CsvRows rows, PackageContents contents) {
    this.rows = rows;
    this.contents = contents;
  }

  private static int at(String column) {
    return Table.CUTS.index(column);
  }

  /** The cut of the current row, which must have {@code number}. */
  StatedCut with(int number, Traces traces) {
    if (rows.whole(at("cut")) != number) {
      throw rows.refused("cut is " + rows.whole(at("cut")) + ", not " + number);
    }
    Trace trace = traces.next(number);
    if (rows.whole(at("samples")) != trace.size()) {
      throw rows.refused(
          "samples is " + rows.whole(at("samples")) + ", traces.csv has " + trace.size());
    }
    try {
      return cut(number, trace);
    } catch (IllegalArgumentException e) {
      throw rows.refused(e.getMessage());
    }
  }

  private StatedCut cut(int number, Trace trace) {
    OptionalInt calibration = reference("calibration", contents.calibrations());
    return new StatedCut(
        number,
        reference("recording", contents.recordings()).orElseThrow(),
        rows.instant(at("occurred_at")),
        event(trace),
        rows.integer(at("detector_version")),
        calibration,
        calibration.isPresent() ? Optional.of(force(calibration.getAsInt())) : Optional.empty(),
        place(),
        Boolean.parseBoolean(rows.text(at("set_aside"))));
  }

  private OptionalInt reference(String column, List<?> items) {
    if (rows.empty(at(column))) {
      return OptionalInt.empty();
    }
    int number = rows.integer(at(column));
    if (!(number >= 1 && number <= items.size())) {
      throw rows.refused(column + " " + number + " is not in the package");
    }
    return OptionalInt.of(number);
  }

  private Cut event(Trace trace) {
    OptionalLong breakNanos =
        rows.empty(at("break_s"))
            ? OptionalLong.empty()
            : OptionalLong.of(rows.nanos(at("break_s")));
    return new Cut(
        rows.integer(at("number")),
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
        trace);
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

  private CutForce force(int calibration) {
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

  private Optional<StatedCut.StatedPlace> place() {
    OptionalInt session = reference("session", contents.journal().sessions());
    if (session.isEmpty()) {
      return Optional.empty();
    }
    int stages = contents.journal().sessions().get(session.getAsInt() - 1).stages().size();
    int stage = rows.empty(at("stage")) ? 0 : rows.integer(at("stage"));
    if (!(stage >= 1 && stage <= stages)) {
      throw rows.refused("stage " + stage + " is not in session " + session.getAsInt());
    }
    return Optional.of(
        new StatedCut.StatedPlace(session.getAsInt(), stage, rows.real(at("place_mm"))));
  }
}
