package snick.journal;

import snick.quantity.Worded;

/**
 * A blade, session or stage that got another name, was made one with another, or was opened again.
 * The entry around it says when and why.
 *
 * @param kind what was done
 * @param before its name before; of a session opened again, when it was closed
 * @param after its name since, or that of what it was made one with; empty of one opened again
 */
public record Amendment(Kind kind, String before, String after) {
  /** What was done. */
  public enum Kind implements Worded {
    BLADE_RENAMED,
    BLADE_MERGED,
    SESSION_RENAMED,
    SESSION_REOPENED,
    STAGE_RENAMED,
    STAGE_MERGED;
  }

  /** In plain words, for example {@code stage 'deburd' renamed to 'deburred'}. */
  public String plain() {
    return switch (kind) {
      case BLADE_RENAMED -> renamed("blade");
      case BLADE_MERGED -> merged("blade");
      case SESSION_RENAMED -> renamed("session");
      case SESSION_REOPENED -> "opened again; it was closed at " + second(before);
      case STAGE_RENAMED -> renamed("stage");
      case STAGE_MERGED -> merged("stage");
    };
  }

  /** A time in UTC as it was kept, to the second. */
  private static String second(String instant) {
    return instant.replaceFirst("T", " ").replaceFirst("(\\.\\d+)?Z$", " UTC");
  }

  private String renamed(String what) {
    return what + " '" + before + "' renamed to '" + after + "'";
  }

  private String merged(String what) {
    return what + " '" + before + "' merged into '" + after + "'";
  }
}
