package snick.journal.name;

import java.util.List;
import snick.phrase.NotAccepted;

/** A name to be added that is nearly one that is there: asks which is meant. */
public final class SlipOfName extends NotAccepted {
  private static final long serialVersionUID = 1L;

  private static final int MOST = 3;

  private final String[] near;

  SlipOfName(String kind, String typed, List<String> near) {
    super(
        "refused.new_name",
        "kind",
        Field.called(kind),
        "typed",
        Field.shown(typed.strip()),
        "near",
        NearNames.question(near));
    this.near = near.toArray(String[]::new);
  }

  public static void throwIfAny(String kind, String typed, List<String> near) {
    if (!near.isEmpty()) {
      throw new SlipOfName(kind, typed, near.subList(0, Math.min(near.size(), MOST)));
    }
  }

  /** The names that are there, nearest first. */
  public List<String> near() {
    return List.of(near);
  }
}
