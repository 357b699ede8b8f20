package snick.daemon;

import java.io.IOException;
import java.util.List;
import snick.port.Ports;
import snick.view.BenchPage;
import snick.view.bench.Bench;
import snick.view.bench.PortHere;

/**
 * The page and the store's doors that it owns.
 *
 * @param page the page
 * @param bench what it looks at
 */
record ServedPage(BenchPage page, Bench bench) implements AutoCloseable {
  /** Of no weight: nothing is opened to list what is there. */
  private static final int USUAL_BITS_PER_SECOND = 115_200;

  /** Starts to serve as {@code settings} say; closes the doors if that fails. */
  static ServedPage start(Recorder.Settings settings, Bench bench) throws IOException {
    try {
      return new ServedPage(BenchPage.start(where(settings), bench), bench);
    } catch (IOException e) {
      bench.doors().close();
      throw e;
    }
  }

  /** The serial ports of this machine; none if they cannot be listed. */
  static List<PortHere> ports() {
    try {
      return new Ports(USUAL_BITS_PER_SECOND)
          .candidates().stream()
              .map(port -> new PortHere(port.path().toString(), port.description()))
              .toList();
    } catch (IOException e) {
      return List.of();
    }
  }

  private static BenchPage.Settings where(Recorder.Settings settings) {
    return new BenchPage.Settings(
        settings.page().reach(), settings.page().httpPort().orElseThrow(), settings.lockFolder());
  }

  @Override
  public void close() {
    page.close();
    bench.doors().close();
  }
}
