package snick.view.http;

import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;

/** Waits, not for ever, for an answer that is made on another thread. */
public record Turn(ExecutorService thread, long patienceSeconds) {

  /** What {@code act} gives, on the other thread; throws as it does. */
  public HttpAnswer run(Callable<HttpAnswer> act) {
    Future<HttpAnswer> future = thread.submit(act);
    try {
      return future.get(patienceSeconds, TimeUnit.SECONDS);
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException known) {
        throw known;
      }
      throw new IllegalStateException(e.getCause());
    } catch (TimeoutException e) {
      future.cancel(false);
      return HttpAnswer.problem(503, "door.store_busy");
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return HttpAnswer.problem(503, "door.stopping");
    }
  }
}
