package snick.exchange.derive;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Consumer;

/**
 * Work done on every processor whose results are taken in the order in which it was given. Memory
 * is bounded: giving waits while too many samples are under way. Used by one thread; results are
 * taken on that thread.
 */
public final class InOrder<T> implements AutoCloseable {
  private static final long MOST_SAMPLES = 1 << 18;
  private static final int MOST_PIECES = 1 << 8;

  private final ExecutorService workers =
      Executors.newFixedThreadPool(
          Runtime.getRuntime().availableProcessors(),
          work -> {
            Thread thread = new Thread(work, "check");
            thread.setDaemon(true);
            return thread;
          });
  private final Deque<Piece<T>> underWay = new ArrayDeque<>();
  private final Consumer<T> taker;
  private long samplesUnderWay;

  private record Piece<T>(Future<T> result, int samples) {}

  /** Work whose results go to {@code taker}. */
  public InOrder(Consumer<T> taker) {
    this.taker = taker;
  }

  /** Gives a piece of work on so many samples. */
  public void give(int samples, Callable<T> work) {
    while (!underWay.isEmpty()
        && (underWay.size() == MOST_PIECES || samplesUnderWay + samples > MOST_SAMPLES)) {
      takeFirst();
    }
    underWay.add(new Piece<>(workers.submit(work), samples));
    samplesUnderWay += samples;
  }

  /** Takes what is still under way. */
  public void finish() {
    while (!underWay.isEmpty()) {
      takeFirst();
    }
  }

  private void takeFirst() {
    Piece<T> first = underWay.remove();
    samplesUnderWay -= first.samples();
    try {
      taker.accept(first.result().get());
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      throw new IllegalStateException("work failed", e.getCause());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while work was under way", e);
    }
  }

  @Override
  public void close() {
    workers.shutdownNow();
  }
}
