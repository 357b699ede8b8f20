package snick.journal;

import snick.quantity.Worded;

/** A side of the blade, seen from the spine with the tip pointing away. */
public enum Side implements Worded {
  LEFT,
  RIGHT,
  BOTH;

  /** Whether this side is {@code side} or takes it in. */
  public boolean covers(Side side) {
    return this == side || this == BOTH;
  }
}
