package snick.cut;

/** Makes cuts of findings, in their order. */
interface Estimation {
  /** Takes the next finding; its cut is handed on now or later, in the thread that calls. */
  void take(FoundLoading finding);

  /** Hands on all cuts that were taken. */
  void handOn();
}
