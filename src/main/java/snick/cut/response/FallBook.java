package snick.cut.response;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;

/**
 * The latest falls of one rig, and when it is time to learn from them: at 5, 10, 20, 40 … falls.
 * One thread.
 *
 * @param <E> what tells one fall from another
 */
public final class FallBook<E> {
  /** Falls that are learned from at most, the latest. */
  public static final int MOST = 30;

  private final Deque<Noted<E>> falls = new ArrayDeque<>();
  private long total;
  private long learnedAt;

  private record Noted<E>(E evidence, SeenFall fall) {}

  /**
   * What was learned, and from which falls.
   *
   * @param response the response
   * @param evidence the falls, in order
   */
  public record Learned<E>(Response response, List<E> evidence) {
    public Learned {
      evidence = List.copyOf(evidence);
    }
  }

  /** A book of a rig of which nothing is known. */
  public FallBook() {
    this(0, 0);
  }

  /**
   * A book that goes on.
   *
   * @param total falls that the rig has shown so far, those that are added again left out
   * @param learnedAt how many there were when it was learned from last; 0 if never
   */
  public FallBook(long total, long learnedAt) {
    this.total = total;
    this.learnedAt = learnedAt;
  }

  /** Notes the next fall. */
  public void add(E evidence, SeenFall fall) {
    falls.add(new Noted<>(evidence, fall));
    if (falls.size() > MOST) {
      falls.remove();
    }
    total++;
  }

  /** Whether there are twice as many falls as when it was learned from last. */
  public boolean due() {
    return falls.size() >= Learner.FEWEST && total >= 2 * learnedAt;
  }

  /** Learns from the latest falls. */
  public Learned<E> learn() {
    learnedAt = total;
    return new Learned<>(
        Learner.of(falls.stream().map(Noted::fall).toList()),
        falls.stream().map(Noted::evidence).toList());
  }
}
