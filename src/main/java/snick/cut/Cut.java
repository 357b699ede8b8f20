package snick.cut;

import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import snick.cut.response.Response;
import snick.cut.response.SeenFall;

/**
 * One finished event: the filament was loaded, and this is what became of it. Immutable.
 *
 * @param number 1 for the stream's first event
 * @param figures what was found in it
 * @param trace the raw samples
 * @param response what was known of the rig when it was found and estimated
 */
public record Cut(int number, CutFigures figures, Trace trace, Response response) {
  /**
   * Version of detection and estimation; results carry it and can be derived again by a later one.
   */
  public static final int DETECTOR_VERSION = 8;

  public Cut {
    if (number < 1) {
      throw new IllegalArgumentException("cut " + number);
    }
  }

  /** A cut found while nothing was known of the rig's response. */
  public Cut(int number, CutFigures figures, Trace trace) {
    this(number, figures, trace, Response.unknown());
  }

  public Outcome outcome() {
    return figures.outcome();
  }

  public int polarity() {
    return figures.polarity();
  }

  public long onsetNanos() {
    return figures.onsetNanos();
  }

  public OptionalLong breakNanos() {
    return figures.breakNanos();
  }

  public Optional<Peak> peak() {
    return figures.peak();
  }

  public CutFigures.Shape shape() {
    return figures.shape();
  }

  public CutFigures.Rest rest() {
    return figures.rest();
  }

  public Set<Flag> flags() {
    return figures.flags();
  }

  /** What the rig's response can be learned from; empty if it did not part at once and clearly. */
  public Optional<SeenFall> fall() {
    boolean clear =
        outcome() == Outcome.SEVERED
            && breakNanos().isPresent()
            && peak().isPresent()
            && trace.gaps().isEmpty();
    return clear
        ? trace.fall(
            breakNanos().getAsLong(),
            polarity(),
            rest().zeroBeforeCounts(),
            peak().get().estimateCounts(),
            shape().loadingRateCountsPerSecond(),
            rest().noiseCounts())
        : Optional.empty();
  }
}
