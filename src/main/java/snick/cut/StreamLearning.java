package snick.cut;

import java.util.Optional;
import snick.cut.response.FallBook;
import snick.cut.response.Response;

/**
 * Learns a rig's response from the cuts of its own stream, on their way to a sink. When it is time
 * follows from the events found, not from when their forces come, so that any stream gives the same
 * digits however it is read.
 */
final class StreamLearning implements CutSink {
  private static final int FIRST = 5;

  private final CutSink sink;
  private final FallBook<Integer> book = new FallBook<>();
  private int severed;
  private int next = FIRST;

  StreamLearning(CutSink sink) {
    this.sink = sink;
  }

  @Override
  public void cut(Cut cut) {
    cut.fall().ifPresent(fall -> book.add(cut.number(), fall));
    sink.cut(cut);
  }

  /** Counts a finding; whether its force and all before are now wanted, to learn from them. */
  boolean wants(FoundLoading finding) {
    severed += finding.severed() ? 1 : 0;
    return severed >= next;
  }

  /** What the cuts so far teach, if they teach more than before. */
  Optional<Response> learned() {
    if (!book.due()) {
      next += FIRST;
      return Optional.empty();
    }
    next *= 2;
    return Optional.of(book.learn().response());
  }
}
