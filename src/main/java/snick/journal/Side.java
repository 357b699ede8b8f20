package snick.journal;

import java.util.Locale;

/** A side of the blade, seen from the spine with the tip pointing away. */
public enum Side {
  LEFT,
  RIGHT,
  BOTH;

  /** The word used in JSON and in the store, for example {@code left}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Whether this side is {@code side} or takes it in. */
  public boolean covers(Side side) {
    return this == side || this == BOTH;
  }
}
