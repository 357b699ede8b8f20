package snick.view.http;

import java.util.Locale;

/**
 * Something to be told to viewers.
 *
 * @param kind what it is
 * @param data one line of JSON
 */
public record ServerSentEvent(Kind kind, String data) {
  /** What an event is, and what may become of it on the way. */
  public enum Kind {
    /** A stored cut. Numbered, and kept for those who come back. */
    CUT(true),
    /** The session as it stands. Only the newest matters. */
    BENCH(false),
    /** How the rigs are doing. Only the newest matters. */
    STATE(false),
    /** The trace of the last seconds, for one who has just come. */
    TRACE(false),
    /** Live points. The oldest are dropped for a slow viewer. */
    POINTS(false);

    private final boolean lasting;

    Kind(boolean lasting) {
      this.lasting = lasting;
    }

    boolean lasting() {
      return lasting;
    }

    /** Whether a newer one replaces it. */
    boolean onlyNewest() {
      return this == BENCH || this == STATE;
    }

    String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }
}
