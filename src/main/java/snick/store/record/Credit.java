package snick.store.record;

import java.util.List;
import java.util.Optional;

/**
 * Whose work came from elsewhere, and on what terms, as the sender stated it: untrusted text.
 *
 * @param sha256 digest of the descriptor of the package in which its author gave it away
 * @param title title of that package
 * @param licence name of its licence; empty if none was stated
 * @param contributors who made it, one at least if stated
 */
public record Credit(
    String sha256, String title, Optional<String> licence, List<String> contributors) {
  public Credit {
    contributors = List.copyOf(contributors);
  }

  /**
   * Which credit a cut has.
   *
   * @param origin number of the origin that brought it
   * @param itself whether it is the origin's own work, not that of a source that it names
   * @param credit whose it is
   */
  public record Of(long origin, boolean itself, Credit credit) {}
}
