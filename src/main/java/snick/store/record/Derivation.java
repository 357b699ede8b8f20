package snick.store.record;

import java.time.Instant;
import snick.cut.Cut;

/**
 * What a detector made of a trace.
 *
 * @param detectorVersion {@link Cut#DETECTOR_VERSION} of the program that made it
 * @param createdAt when it was made
 * @param cut the result
 */
public record Derivation(int detectorVersion, Instant createdAt, Cut cut) {
  /** Made by this program. */
  public static Derivation own(Cut cut, Instant createdAt) {
    return new Derivation(Cut.DETECTOR_VERSION, createdAt, cut);
  }
}
