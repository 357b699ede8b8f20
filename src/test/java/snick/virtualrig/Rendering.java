package snick.virtualrig;

import java.util.function.Consumer;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.line.Arrivals;
import snick.virtualrig.line.Sent;
import snick.virtualrig.script.Script;

/**
 * A rig played without a port, step by step, in which things go wrong when they are told to. The
 * host is the caller. For one thread.
 */
public final class Rendering {
  private final FaultyMachine machine;

  /** A rig at power-on. */
  public Rendering(VirtualRig rig, Arrivals arrivals, Consumer<TrueCut> truths) {
    machine =
        new FaultyMachine(
            rig,
            truths,
            (nanos, bytes, length) -> {
              arrivals.arrive(nanos, bytes, length);
              return true;
            });
  }

  /** Play a script to its end. */
  public void play(Script script) {
    play(new FaultyScript(script));
  }

  /** Play a script to its end, in which things go wrong. */
  public void play(FaultyScript script) {
    long target = machine.finishedActions() + script.actions().actions().size();
    machine.perform(script);
    while (machine.finishedActions() < target) {
      machine.step();
    }
  }

  /** Let this many conversions pass. */
  public void play(long conversions) {
    for (long i = 0; i < conversions; i++) {
      machine.step();
    }
  }

  /** The host sends something now. */
  public void receive(byte[] bytes) {
    machine.receive(bytes, bytes.length, machine.nowNanos());
  }

  /** Let a fault begin now. A hang-up is a silence here. */
  public void inject(Fault fault) {
    machine.inject(fault);
  }

  /** What was sent so far. */
  public Sent sent() {
    return machine.sent();
  }
}
