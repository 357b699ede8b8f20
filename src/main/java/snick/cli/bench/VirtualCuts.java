package snick.cli.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.util.concurrent.CompletableFuture;
import snick.cli.option.VirtualFixture;
import snick.cli.terminal.Refusal;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;

/** The virtual rig on a port of its own, cutting every few seconds. */
public final class VirtualCuts implements AutoCloseable {
  private static final int CUTS = 20;
  private static final double SPEED = 10;
  private static final double REST_SECONDS = 10;

  private final ServedRig rig;
  private final CompletableFuture<Void> last;

  private VirtualCuts(ServedRig rig, CompletableFuture<Void> last) {
    this.rig = rig;
    this.last = last;
  }

  /** Begins. */
  public static VirtualCuts begin() {
    try {
      ServedRig rig =
          new VirtualRig(VirtualFixture.USUAL, 1)
              .serve(
                  Files.createTempDirectory("snick-rig-").resolve("rig"),
                  Pacer.of(System::nanoTime, SPEED),
                  VirtualRig.WhenFull.WAIT,
                  truth -> {});
      CompletableFuture<Void> last = CompletableFuture.completedFuture(null);
      for (int i = 0; i < CUTS; i++) {
        last =
            rig.perform(Script.of(new Action.Rest(REST_SECONDS), Action.Cut.ofGramForce(180, 100)));
      }
      return new VirtualCuts(rig, last);
    } catch (IOException e) {
      throw Refusal.failed("the virtual rig cannot be served: " + e.getMessage(), e);
    }
  }

  /** Where it can be opened. */
  public String port() {
    return rig.port();
  }

  @Override
  public void close() {
    last.cancel(false);
    rig.close();
  }
}
