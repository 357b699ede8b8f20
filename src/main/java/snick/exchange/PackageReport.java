package snick.exchange;

import java.util.List;

/**
 * What a check of a package found. Files and digests are as stated, or there would be no report.
 *
 * @param title title that the sender gave, untrusted text
 * @param cuts cuts in it
 * @param samples samples in it
 * @param rederived cuts whose peak this program found again in the raw trace
 * @param notFound cuts in whose trace this program finds no event, for example very short ones
 * @param differences what the sender states and the raw traces do not bear out, one sentence each,
 *     the first 100
 */
public record PackageReport(
    String title, int cuts, long samples, int rederived, int notFound, List<String> differences) {
  public PackageReport {
    differences = List.copyOf(differences);
  }

  /** Whether the raw traces bear out all that is stated. */
  public boolean holds() {
    return differences.isEmpty();
  }
}
