package snick.store.record;

import java.time.Instant;
import java.util.List;

/**
 * Where things came from that this store did not record itself.
 *
 * @param kind what it was: {@code package} or {@code log}
 * @param sha256 digest that tells it from all others, 64 lower-case hexadecimal digits
 * @param name name of the file or folder, untrusted text
 * @param document what it says of itself, untrusted text; may be empty
 * @param credits whose work a package holds: itself first, then each source that it names; empty
 *     for what is of no package
 */
public record Origin(
    String kind, String sha256, String name, String document, List<Credit> credits) {
  public Origin {
    credits = List.copyOf(credits);
    if (!sha256.matches("[0-9a-f]{64}")) {
      throw new IllegalArgumentException(
          "digest of " + sha256.length() + " characters, not 64 hexadecimal digits");
    }
  }

  /** Where things came from that are of no package. */
  public Origin(String kind, String sha256, String name, String document) {
    this(kind, sha256, name, document, List.of());
  }

  /**
   * An origin in the store.
   *
   * @param number its number in the store
   * @param origin where things came from
   * @param takenIn when
   * @param cuts cuts that came from it
   */
  public record Taken(long number, Origin origin, Instant takenIn, long cuts) {}

  /**
   * What taking in an origin did.
   *
   * @param newCuts cuts added
   * @param knownCuts cuts that were there already, with the same trace
   * @param before whether the very same was taken in before, so that nothing was done
   */
  public record Outcome(long newCuts, long knownCuts, boolean before) {}
}
