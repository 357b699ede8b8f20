package snick.cli.cuts;

import java.util.concurrent.Executor;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;

/**
 * Runs tasks one after the other on a processor beside the caller's, or in the caller's thread
 * where there is but one. Closing lets a task at hand end by itself.
 */
final class SecondProcessor implements Executor, AutoCloseable {
  private final ExecutorService thread;
  private final boolean there;

  SecondProcessor(String name) {
    there = Runtime.getRuntime().availableProcessors() > 1;
    thread =
        Executors.newSingleThreadExecutor(
            task -> {
              Thread worker = new Thread(task, name);
              worker.setDaemon(true);
              return worker;
            });
  }

  @Override
  public void execute(Runnable task) {
    if (there) {
      thread.execute(task);
    } else {
      task.run();
    }
  }

  @Override
  public void close() {
    thread.shutdown();
  }
}
