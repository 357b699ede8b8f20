package snick.exchange.check;

import java.util.List;
import java.util.Optional;

/**
 * What a check of a package found. Files and digests are as stated, or there would be no report.
 *
 * @param title title that the sender gave, untrusted text
 * @param licence licence of the sender's own work, untrusted text; empty if none is stated
 * @param contributors who made it, untrusted text
 * @param cuts cuts in it
 * @param samples samples in it
 * @param again cuts derived again from their traces
 * @param withoutTrace cuts that have no samples: typed in, or salvaged without
 * @param differences what the sender states and the raw traces do not bear out, one sentence each,
 *     the first 100
 */
public record PackageReport(
    String title,
    Optional<String> licence,
    List<String> contributors,
    int cuts,
    long samples,
    int again,
    int withoutTrace,
    List<String> differences) {
  public PackageReport {
    contributors = List.copyOf(contributors);
    differences = List.copyOf(differences);
  }

  /** Whether the raw traces bear out all that is stated. */
  public boolean holds() {
    return differences.isEmpty();
  }
}
