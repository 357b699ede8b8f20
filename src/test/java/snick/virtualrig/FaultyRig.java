package snick.virtualrig;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.concurrent.CompletableFuture;
import java.util.function.Consumer;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.line.Link;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.line.PseudoTerminal;
import snick.virtualrig.line.TcpServing;

/** A virtual rig on a port, in which things go wrong when they are told to. */
public final class FaultyRig extends ServedRig {
  private boolean unplugged;
  private long publishNanos;

  private FaultyRig(
      VirtualRig rig,
      Link link,
      Pacer pacer,
      VirtualRig.WhenFull whenFull,
      Consumer<TrueCut> truths) {
    super(link, pacer, whenFull, host -> new FaultyMachine(rig, truths, host));
  }

  /**
   * Serves it on a pseudo-terminal that is published as {@code link}, dropping what is not read.
   */
  public static FaultyRig serve(VirtualRig rig, Path link, double speed) throws IOException {
    return serve(
        rig,
        PseudoTerminal.publishedAs(link),
        Pacer.of(System::nanoTime, speed),
        VirtualRig.WhenFull.DROP,
        truth -> {});
  }

  /** Serves it on any free TCP port. */
  static FaultyRig serveOnTcp(
      VirtualRig rig, Pacer pacer, VirtualRig.WhenFull whenFull, Consumer<TrueCut> truths)
      throws IOException {
    return serve(rig, TcpServing.on(0), pacer, whenFull, truths);
  }

  /** Serves it on {@code link}. */
  public static FaultyRig serve(
      VirtualRig rig,
      Link link,
      Pacer pacer,
      VirtualRig.WhenFull whenFull,
      Consumer<TrueCut> truths) {
    FaultyRig served = new FaultyRig(rig, link, pacer, whenFull, truths);
    served.begin();
    return served;
  }

  /**
   * Add a script behind what waits.
   *
   * @return done when its last action is over
   */
  public CompletableFuture<Void> perform(FaultyScript script) {
    return perform(script.actions().actions().size(), () -> machine().perform(script));
  }

  /** Let a fault begin at once, whatever is going on. */
  public void inject(Fault fault) {
    request(
        () -> {
          machine().inject(fault);
          if (fault instanceof Fault.HangUp hangUp) {
            unplug(hangUp);
          }
        });
  }

  private FaultyMachine machine() {
    return (FaultyMachine) machine;
  }

  private void unplug(Fault.HangUp fault) {
    try {
      outgoing.flush(link);
      link.hangUp();
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
    unplugged = true;
    publishNanos = machine.nowNanos() + FaultyLine.inNanos(fault.seconds());
  }

  @Override
  void turn() throws IOException {
    if (unplugged && machine.nextNanos() >= publishNanos) {
      link.publish();
      unplugged = false;
    }
    super.turn();
  }

  /** Pulled out, it lives on, whoever waits for it. */
  @Override
  boolean standsStill() {
    return !unplugged && super.standsStill();
  }
}
