package snick.daemon;

import java.util.List;
import java.util.Optional;
import snick.cut.Cut;
import snick.force.budget.Calibration;
import snick.force.budget.DerivedForce;
import snick.phrase.Phrase;
import snick.phrase.Told;

/**
 * The calibration in use for one recording, or the reasons why there is none.
 *
 * @param calibration the calibration
 * @param reasons why there is none, as they are kept with each cut; empty if there is one
 * @param remedy what to do about that now, said beside each; kept nowhere
 * @param warnings what to know before trusting its forces, one sentence each
 */
public record Scale(
    Optional<Calibration> calibration,
    List<Phrase> reasons,
    Optional<Phrase> remedy,
    List<Phrase> warnings) {
  /** Cuts get a force by {@code calibration}. */
  public static Scale by(Calibration calibration) {
    return new Scale(Optional.of(calibration), List.of(), Optional.empty(), List.of());
  }

  /** The same with warnings. */
  public Scale warning(List<Phrase> ofWhat) {
    return new Scale(calibration, reasons, remedy, List.copyOf(ofWhat));
  }

  /** Cuts stay in counts. */
  public static Scale none(List<Phrase> reasons) {
    return new Scale(Optional.empty(), List.copyOf(reasons), Optional.empty(), List.of());
  }

  /** The same with what to do about it. */
  public Scale remedied(Phrase by) {
    return new Scale(calibration, reasons, Optional.of(by), warnings);
  }

  /** Force at the break, with the peak's own uncertainty. */
  public DerivedForce estimate(Cut cut) {
    return derive(
        cut,
        cut.peak().map(peak -> peak.estimateCounts()),
        cut.peak().map(peak -> peak.standardUncertaintyCounts()));
  }

  /** Force of the largest sample. */
  public DerivedForce observedMaximum(Cut cut) {
    return derive(cut, cut.peak().map(peak -> peak.observedMaxCounts()), Optional.of(0.0));
  }

  private DerivedForce derive(
      Cut cut, Optional<Double> deflectionCounts, Optional<Double> uncertaintyCounts) {
    if (calibration.isEmpty()) {
      return new DerivedForce.Uncalibrated(reasons);
    }
    if (deflectionCounts.isEmpty() || uncertaintyCounts.isEmpty()) {
      return new DerivedForce.Uncalibrated(List.of(Phrase.of("scale.no_sample")));
    }
    if (wrongWay(cut)) {
      return new DerivedForce.Uncalibrated(List.of(Phrase.of("scale.wrong_way")));
    }
    return derive(calibration.get(), deflectionCounts.get(), uncertaintyCounts.get());
  }

  /** A force that cannot be is none: the counts are sound, the scale is not. */
  private static DerivedForce derive(Calibration by, double counts, double uncertaintyCounts) {
    try {
      return by.derive(counts, uncertaintyCounts);
    } catch (IllegalArgumentException e) {
      return new DerivedForce.Uncalibrated(
          List.of(Phrase.of("scale.force_cannot_be", "why", Told.of(e))));
    }
  }

  private boolean wrongWay(Cut cut) {
    return calibration
        .flatMap(Calibration::boundTo)
        .filter(setting -> setting.polarity() != cut.polarity())
        .isPresent();
  }
}
