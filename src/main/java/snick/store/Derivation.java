package snick.store;

import java.time.Instant;
import snick.cut.Cut;

/**
 * What a detector made of a trace.
 *
 * @param detectorVersion {@link Cut#DETECTOR_VERSION} of the program that made it
 * @param createdAt when it was made
 * @param cut the result
 */
record Derivation(int detectorVersion, Instant createdAt, Cut cut) {
  /** Made by this program. */
  static Derivation own(Cut cut, Instant createdAt) {
    return new Derivation(Cut.DETECTOR_VERSION, createdAt, cut);
  }
}
