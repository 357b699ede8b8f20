package snick.store;

import java.time.Instant;
import java.util.Optional;
import snick.frame.text.Columns;
import snick.store.record.Evidence;

/** What the text lines of a port hold, kept in the store: the next recording reads them alike. */
public final class KeptColumns {
  private static final String KIND = "columns";

  private KeptColumns() {}

  /** What to store of the lines from {@code source}; empty: as the protocol asks. */
  public static Evidence evidence(String source, Instant at, Optional<Columns> columns) {
    return new Evidence(source, KIND, at, columns.map(Columns::words).orElse(""));
  }

  /** What the lines from {@code source} held when they were last recorded in columns. */
  public static Optional<Columns> of(StoreReader store, String source) {
    return store
        .lastEvidence(source, KIND)
        .map(Evidence::document)
        .filter(words -> !words.isEmpty())
        .map(Columns::parse);
  }
}
