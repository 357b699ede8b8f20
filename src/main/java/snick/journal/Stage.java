package snick.journal;

import snick.journal.name.Field;

/**
 * A state of the edge within a session: as found, after this, after that.
 *
 * @param order 1 for the session's first stage, at most 1000
 * @param name free, 1 to 120 characters, unique in the session whatever its case
 */
public record Stage(int order, String name) {
  /** Most stages in one session. */
  public static final int LIMIT = 1000;

  public Stage {
    Field.within("stage order", order, 1, LIMIT);
    name = Field.name("stage name", name);
  }

  boolean isCalled(String other) {
    return name.equalsIgnoreCase(other.strip());
  }
}
