package snick.store.care;

import java.util.List;

/**
 * What a check of a whole store found.
 *
 * @param traces traces checked
 * @param damagedTraces of them, those that are missing, malformed or do not meet their checksum
 * @param problems what is wrong, one sentence each, the first 100; empty if the store is sound
 */
public record IntegrityReport(long traces, long damagedTraces, List<String> problems) {
  public IntegrityReport {
    problems = List.copyOf(problems);
  }

  /** Whether nothing is wrong. */
  public boolean isSound() {
    return problems.isEmpty();
  }
}
