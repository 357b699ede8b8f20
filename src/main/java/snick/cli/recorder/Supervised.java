package snick.cli.recorder;

import java.io.IOException;
import java.util.Optional;
import java.util.function.Consumer;
import snick.daemon.Recorder;
import snick.daemon.Supervision;
import snick.service.Supervisor;

/** A recorder that was started as a service says so; one that a person started says nothing. */
record Supervised(Optional<Supervision> supervision) implements AutoCloseable {
  /**
   * Tells whoever the environment names.
   *
   * @param tell takes one line if that does not work
   */
  static Supervised byWhomStartedThis(Recorder recorder, Consumer<String> tell) {
    try {
      return new Supervised(
          Supervisor.of(System.getenv()).map(s -> Supervision.begin(recorder, s, tell)));
    } catch (IOException e) {
      tell.accept(e.getMessage() + "; recording all the same");
      return new Supervised(Optional.empty());
    }
  }

  @Override
  public void close() {
    supervision.ifPresent(Supervision::close);
  }
}
