package snick.cut;

/** Takes finished events, in order. */
@FunctionalInterface
public interface CutSink {
  /** One finished event. */
  void cut(Cut cut);
}
