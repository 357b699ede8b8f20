package snick.daemon;

import java.io.IOException;
import snick.view.Bench;
import snick.view.BenchPage;

/**
 * The page and the store's doors that it owns.
 *
 * @param page the page
 * @param bench what it looks at
 */
record ServedPage(BenchPage page, Bench bench) implements AutoCloseable {
  /** Starts to serve as {@code settings} say; closes the doors if that fails. */
  static ServedPage start(Recorder.Settings settings, Bench bench) throws IOException {
    try {
      return new ServedPage(BenchPage.start(where(settings), bench), bench);
    } catch (IOException e) {
      bench.doors().close();
      throw e;
    }
  }

  private static BenchPage.Settings where(Recorder.Settings settings) {
    return new BenchPage.Settings(
        settings.reach(), settings.httpPort().orElseThrow(), settings.lockFolder());
  }

  @Override
  public void close() {
    page.close();
    bench.doors().close();
  }
}
