package snick.virtualrig;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Objects;
import java.util.function.Consumer;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.line.Arrivals;
import snick.virtualrig.line.NoPseudoTerminalException;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.line.PseudoTerminal;
import snick.virtualrig.line.Sent;
import snick.virtualrig.line.TcpServing;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.RigSettings;

/**
 * A rig that exists only as a model: hand, filament, fixture, converter, firmware and line. The
 * same settings, seed, actions and host bytes give the same bytes.
 *
 * @param settings what it is like
 * @param seed seed of all chance in it
 */
public record VirtualRig(RigSettings settings, long seed) {
  public VirtualRig {
    Objects.requireNonNull(settings);
  }

  /**
   * Play a script without a port, as fast as the machine can.
   *
   * @param arrivals takes the bytes with their times; the calling thread's
   * @param truths told of each event
   */
  public Sent render(Script script, Arrivals arrivals, Consumer<TrueCut> truths) {
    RigMachine machine =
        new RigMachine(
            this,
            truths,
            (nanos, bytes, length) -> {
              arrivals.arrive(nanos, bytes, length);
              return true;
            });
    machine.perform(script);
    while (machine.finishedActions() < script.actions().size()) {
      machine.step();
    }
    return machine.sent();
  }

  /**
   * Let the rig live on a pseudo-terminal.
   *
   * @param link symbolic link under which the terminal is published
   * @param truths told of each event, by the rig's own thread
   * @throws IOException if the system gives no pseudo-terminal or the link cannot be made
   */
  public ServedRig serveOnPseudoTerminal(
      Path link, Pacer pacer, WhenFull whenFull, Consumer<TrueCut> truths) throws IOException {
    return ServedRig.start(this, PseudoTerminal.publishedAs(link), pacer, whenFull, truths);
  }

  /**
   * Let the rig live on a TCP port of the loopback address, one host at once.
   *
   * @param port port number; 0 for any free one
   * @param truths told of each event, by the rig's own thread
   * @throws IOException if the port is taken
   */
  public ServedRig serveOnTcp(int port, Pacer pacer, WhenFull whenFull, Consumer<TrueCut> truths)
      throws IOException {
    return ServedRig.start(this, TcpServing.on(port), pacer, whenFull, truths);
  }

  /**
   * As a pseudo-terminal where one is to be had, else on any free TCP port.
   *
   * @throws IOException if the link cannot be made
   */
  public ServedRig serve(Path link, Pacer pacer, WhenFull whenFull, Consumer<TrueCut> truths)
      throws IOException {
    if (!PseudoTerminal.supported()) {
      return serveOnTcp(0, pacer, whenFull, truths);
    }
    try {
      return serveOnPseudoTerminal(link, pacer, whenFull, truths);
    } catch (NoPseudoTerminalException | LinkageError e) {
      return serveOnTcp(0, pacer, whenFull, truths);
    }
  }

  /** What the device does when its reader does not keep up. */
  public enum WhenFull {
    /** Drop whole frames and count them, as a device on a line without flow control does. */
    DROP,
    /** Stop the rig's time until there is a reader and room: for rigs faster than real time. */
    WAIT
  }
}
