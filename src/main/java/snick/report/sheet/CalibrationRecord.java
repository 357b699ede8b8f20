package snick.report.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import snick.force.budget.Calibration;
import snick.force.budget.CombinedUncertainty;
import snick.force.budget.Evaluation;
import snick.phrase.Phrase;
import snick.phrase.Told;
import snick.store.StoreReader;
import snick.store.record.StoredCalibration;
import snick.store.record.Verification;

/**
 * All that is known of one stored calibration.
 *
 * @param stored the calibration
 * @param sheet what it was made from; empty for a typed-in one
 * @param evaluation worked out again from the sheet; empty without one
 * @param verifications check masses since, oldest first
 * @param remarks what a reader should know
 */
public record CalibrationRecord(
    StoredCalibration stored,
    Optional<BenchSheet> sheet,
    Optional<Evaluation> evaluation,
    List<Verification> verifications,
    List<Phrase> remarks) {
  /** Said on every record. */
  public static final Phrase WHAT_IT_IS = Phrase.of("record.what_it_is");

  private static final int BUDGET_POINTS = 5;

  public CalibrationRecord {
    verifications = List.copyOf(verifications);
    remarks = List.copyOf(remarks);
  }

  /** The record of {@code stored}, with what {@code store} knows of it. */
  public static CalibrationRecord of(StoredCalibration stored, StoreReader store) {
    List<Verification> since =
        stored.calibration().boundTo().stream()
            .flatMap(rig -> store.verifications(rig.deviceId()).stream())
            .filter(v -> v.calibrationId().equals(stored.calibration().id()))
            .toList();
    List<Phrase> remarks = new ArrayList<>();
    Optional<BenchSheet> sheet = stored.document().flatMap(text -> sheet(text, remarks));
    Optional<Evaluation> evaluation = sheet.flatMap(s -> evaluation(s, stored, remarks));
    return new CalibrationRecord(stored, sheet, evaluation, since, remarks);
  }

  private static Optional<BenchSheet> sheet(String text, List<Phrase> remarks) {
    try {
      return Optional.of(BenchSheet.parse(text));
    } catch (RuntimeException e) {
      remarks.add(Phrase.of("record.readings_unusable", "why", Told.of(e)));
      return Optional.empty();
    }
  }

  private static Optional<Evaluation> evaluation(
      BenchSheet sheet, StoredCalibration stored, List<Phrase> remarks) {
    Evaluation again = sheet.evaluate();
    if (!again.calibration().id().equals(stored.calibration().id())) {
      remarks.add(Phrase.of("record.other_version"));
    }
    remarks.addAll(again.notes());
    return Optional.of(again);
  }

  /** The calibration. */
  public Calibration calibration() {
    return stored.calibration();
  }

  /** The uncertainty at five forces over the range, a peak's own not included. */
  public List<CombinedUncertainty> budget() {
    return CombinedUncertainty.over(calibration(), BUDGET_POINTS, 0);
  }

  /** As one JSON object, every digit. */
  public Map<String, Object> json() {
    return RecordJson.of(this);
  }
}
