package snick.cut;

import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import snick.quantity.Worded;

/** Something about one event that a person should know before trusting its number. */
public enum Flag implements Worded {
  /**
   * Loaded too fast for this sampling rate: too few samples on the ramp to say the force at the
   * break.
   */
  TOO_FAST_FOR_RATE,
  /** The reading at rest after the event differs from the one before by more than noise. */
  ZERO_MOVED,
  /** A single-sample spike was left out near the peak. */
  SPIKE_NEAR_PEAK,
  /** Samples are missing inside the event. */
  GAP_INSIDE,
  /** The force dipped before the peak by more than noise. */
  DIPS_BEFORE_PEAK,
  /** The loading speed was uneven (tremor), so the uncertainty is larger. */
  UNEVEN_LOADING,
  /** The zero before the event was too short or too unsteady to trust. */
  ZERO_UNSURE;

  /** All, in the order of their words in the alphabet. */
  public static final List<Flag> BY_WORD =
      Stream.of(values()).sorted(Comparator.comparing(Flag::word)).toList();

  /** The words of these flags in the order of the alphabet. */
  public static List<String> words(Set<Flag> flags) {
    return BY_WORD.stream().filter(flags::contains).map(Flag::word).toList();
  }

  /**
   * The flag of a word.
   *
   * @throws IllegalArgumentException if there is none
   */
  public static Flag ofWord(String word) {
    return Worded.named(Flag.class, word)
        .orElseThrow(() -> new IllegalArgumentException("flag '" + word + "' is not known here"));
  }
}
