package snick.daemon.link;

/** What becomes of a rig that is not there at the start. */
public enum WhenAbsent {
  /** It is refused; without end only one that was there is waited for. */
  REFUSED,
  /** It is waited for until it is there. */
  AWAITED
}
