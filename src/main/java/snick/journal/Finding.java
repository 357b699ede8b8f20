package snick.journal;

import snick.quantity.Worded;

/** What an inspection found. The last four belong to the thin-paper cut. */
public enum Finding implements Worded {
  BURR_SEEN(false),
  NONE(false),
  UNSURE(false),
  CLEAN(true),
  CATCHES(true),
  TEARS(true),
  WILL_NOT_START(true);

  private final boolean ofPaper;

  Finding(boolean ofPaper) {
    this.ofPaper = ofPaper;
  }

  /** Whether {@code method} can find this. */
  public boolean fits(Method method) {
    return this == UNSURE || ofPaper == (method == Method.THIN_PAPER);
  }

  /** Whether it says that there is no burr: none, or a clean paper cut. */
  public boolean saysNone() {
    return this == NONE || this == CLEAN;
  }

  /** Whether it points to a burr: burr seen, or paper that catches or tears. */
  public boolean pointsToBurr() {
    return this == BURR_SEEN || this == CATCHES || this == TEARS;
  }
}
