package snick.faults;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.DynamicTest;

/** Scenes that mostly wait, played some at a time, each in a folder of its own. */
final class Together {
  private static final int AT_A_TIME = 3;
  private static final long PATIENCE_HOURS = 2;

  private final Path folder;
  private final ExecutorService stage = Executors.newFixedThreadPool(AT_A_TIME);
  private final List<DynamicTest> tests = new ArrayList<>();

  Together(Path folder) {
    this.folder = folder;
  }

  /** What happens in a folder. */
  @FunctionalInterface
  interface Scene {
    void play(Path folder) throws Exception;
  }

  /** Begins a scene as soon as there is room; its outcome is a test. */
  Together play(String name, Scene scene) {
    Path own = folder.resolve("scene" + tests.size());
    Future<Void> outcome =
        stage.submit(
            () -> {
              scene.play(Files.createDirectories(own));
              return null;
            });
    tests.add(DynamicTest.dynamicTest(name, () -> await(outcome)));
    return this;
  }

  private static void await(Future<Void> outcome) throws Throwable {
    try {
      outcome.get(PATIENCE_HOURS, TimeUnit.HOURS);
    } catch (ExecutionException e) {
      throw e.getCause();
    }
  }

  /** The tests, in the order in which they were begun. */
  List<DynamicTest> tests() {
    stage.shutdown();
    return tests;
  }
}
