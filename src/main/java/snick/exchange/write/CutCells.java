package snick.exchange.write;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import snick.cut.Flag;
import snick.cut.Peak;
import snick.exchange.derive.EarlierDerivation;
import snick.exchange.table.Decimals;
import snick.exchange.table.Table;
import snick.force.budget.DerivedForce;
import snick.store.record.CutPlace;
import snick.store.record.CutSummary;
import snick.store.record.StoredForce;
import snick.store.record.StoredResult;

/** One row of {@code cuts.csv} or {@code history.csv}, written. */
public final class CutCells {
  private final Table table;
  private final Numbering numbering;
  private final String[] cells;

  CutCells(Table table, Numbering numbering) {
    this.table = table;
    this.numbering = numbering;
    cells = new String[table.columns().size()];
  }

  /** The cells of a cut in the order of the columns; valid until the next call. */
  String[] of(int number, CutSummary cut) {
    java.util.Arrays.fill(cells, "");
    put("cut", number);
    put("recording", numbering.recording(cut.recordingId()));
    put("number", cut.number());
    put("occurred_at", cut.occurredAt().toString());
    cut.place().ifPresent(this::place);
    put("set_aside", Boolean.toString(cut.setAside().isPresent()));
    numbering.source(cut.id()).ifPresent(source -> put("source", source));
    result(cut.result());
    cut.force().ifPresent(this::force);
    put("samples", cut.samples());
    return cells;
  }

  /** The cells of what was derived before; valid until the next call. */
  String[] of(int number, int row, EarlierDerivation earlier) {
    java.util.Arrays.fill(cells, "");
    put("cut", number);
    put("row", row);
    put("result", earlier.number());
    put("stands", Boolean.toString(earlier.stands()));
    put("derived_at", earlier.result().createdAt().toString());
    result(earlier.result());
    earlier.force().ifPresent(this::force);
    earlier.force().ifPresent(f -> put("force_derived_at", f.createdAt().toString()));
    return cells;
  }

  private void place(CutPlace place) {
    put("session", numbering.session(place.session()));
    put("stage", place.stage().order());
    put("place_mm", place.placeMm());
  }

  private void result(StoredResult result) {
    put("outcome", result.outcome().word());
    put("polarity", result.polarity());
    put("onset_s", Decimals.seconds(result.onsetNanos()));
    OptionalLong breakNanos = result.breakNanos();
    breakNanos.ifPresent(nanos -> put("break_s", Decimals.seconds(nanos)));
    result.peak().ifPresent(this::peak);
    put("loading_rate_counts_per_s", result.shape().loadingRateCountsPerSecond());
    put("fall_s", Decimals.seconds(result.shape().fallNanos()));
    put("dips", result.shape().dips());
    put("ramp_samples", result.shape().rampSamples());
    put("zero_before_counts", result.rest().zeroBeforeCounts());
    put("zero_after_counts", result.rest().zeroAfterCounts());
    put("noise_counts", result.rest().noiseCounts());
    put("flags", result.flags().stream().sorted().map(Flag::word).collect(Collectors.joining(" ")));
    put("detector_version", result.detectorVersion());
    result.responseId().ifPresent(id -> put("response", id));
  }

  private void peak(Peak peak) {
    put("observed_max_counts", peak.observedMaxCounts());
    put("estimate_counts", peak.estimateCounts());
    put("u_estimate_counts", peak.standardUncertaintyCounts());
  }

  private void force(StoredForce stored) {
    DerivedForce estimate = stored.force().estimate();
    put("calibration", numbering.calibration(calibrationId(stored)));
    put("in_range", Boolean.toString(estimate instanceof DerivedForce.Inside));
    estimate
        .measured()
        .ifPresent(
            force -> {
              put("force_n", force.value().newtons());
              put("u_force_n", force.standardUncertainty().newtons());
            });
    if (estimate instanceof DerivedForce.Inside inside) {
      put("degrees_of_freedom", inside.degreesOfFreedom());
    }
    put("observed_max_n", stored.force().observedMax().newtons());
  }

  /** The calibration that a stored force was derived with; a stored force always has one. */
  public static String calibrationId(StoredForce stored) {
    return calibrationId(stored.force().estimate()).orElseThrow();
  }

  private static Optional<String> calibrationId(DerivedForce estimate) {
    if (estimate instanceof DerivedForce.Inside inside) {
      return Optional.of(inside.calibrationId());
    }
    return estimate instanceof DerivedForce.Outside outside
        ? Optional.of(outside.calibrationId())
        : Optional.empty();
  }

  private void put(String column, String cell) {
    cells[table.index(column)] = cell;
  }

  private void put(String column, long value) {
    put(column, Long.toString(value));
  }

  private void put(String column, double value) {
    put(column, Decimals.real(value));
  }

  private void put(String column, OptionalDouble value) {
    value.ifPresent(v -> put(column, v));
  }
}
