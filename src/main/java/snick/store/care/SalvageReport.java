package snick.store.care;

import java.util.List;
import java.util.Map;

/**
 * What was saved of a damaged store.
 *
 * @param rowsKept rows copied, by table
 * @param lost what could not be read or stands alone now, one sentence each; empty if nothing
 */
public record SalvageReport(Map<String, Long> rowsKept, List<String> lost) {
  public SalvageReport {
    rowsKept = Map.copyOf(rowsKept);
    lost = List.copyOf(lost);
  }
}
