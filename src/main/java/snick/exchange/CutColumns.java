package snick.exchange;

import blue.strategic.parquet.ValueWriter;
import java.util.stream.Collectors;
import snick.cut.Flag;
import snick.force.DerivedForce;
import snick.store.CutSummary;
import snick.store.StoredCut;
import snick.store.StoredForce;
import snick.store.StoredResult;

/** One cut as a row of Parquet; what it does not have is left out. */
record CutColumns(ValueWriter out) {
  void write(long startedNanos, StoredCut stored) {
    CutSummary cut = stored.summary();
    out.write("recording_started_utc_ns", startedNanos);
    out.write("number", cut.number());
    out.write("occurred_at", ParquetExport.micros(cut.occurredAt()));
    write(cut.result());
    out.write("set_aside", cut.setAside().isPresent());
    cut.force().ifPresent(this::write);
    cut.place().ifPresent(place -> place.placeMm().ifPresent(mm -> out.write("place_mm", mm)));
    out.write("samples", cut.samples());
  }

  private void write(StoredResult result) {
    out.write("outcome", result.outcome().word());
    out.write(
        "flags", result.flags().stream().sorted().map(Flag::word).collect(Collectors.joining(" ")));
    out.write("polarity", result.polarity());
    out.write("onset_s", result.onsetNanos() / 1e9);
    result.breakNanos().ifPresent(nanos -> out.write("break_s", nanos / 1e9));
    result
        .peak()
        .ifPresent(
            peak -> {
              out.write("observed_max_counts", peak.observedMaxCounts());
              out.write("estimate_counts", peak.estimateCounts());
              out.write("u_estimate_counts", peak.standardUncertaintyCounts());
            });
    real("loading_rate_counts_per_s", result.shape().loadingRateCountsPerSecond());
    real("zero_before_counts", result.rest().zeroBeforeCounts());
    real("noise_counts", result.rest().noiseCounts());
    out.write("detector_version", result.detectorVersion());
    result.responseId().ifPresent(id -> out.write("response", id));
  }

  private void real(String column, double value) {
    if (!Double.isNaN(value)) {
      out.write(column, value);
    }
  }

  private void write(StoredForce stored) {
    DerivedForce estimate = stored.force().estimate();
    out.write("calibration", CutCells.calibrationId(stored));
    out.write("in_range", estimate instanceof DerivedForce.Inside);
    estimate
        .measured()
        .ifPresent(
            force -> {
              out.write("force_n", force.value().newtons());
              out.write("u_force_n", force.standardUncertainty().newtons());
            });
  }
}
