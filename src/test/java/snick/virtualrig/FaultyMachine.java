package snick.virtualrig;

import java.util.ArrayDeque;
import java.util.Queue;
import java.util.function.Consumer;
import snick.frame.binary.DeviceFrames;
import snick.frame.message.Status;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.device.DeviceIdentity;
import snick.virtualrig.script.Script;
import snick.virtualrig.signal.SignalModel;

/** A rig in which something goes wrong between converter, firmware and line. For one thread. */
final class FaultyMachine extends RigMachine {
  private static final int HIGHEST = (1 << 23) - 1;
  private static final int LOWEST = -(1 << 23);

  private final FaultyLine line;
  private final Queue<FaultyScript.Between> toCome = new ArrayDeque<>();
  private final byte[] broken = new byte[DeviceFrames.MAX_BYTES];
  private int asked;
  private long lostUntilNanos;
  private long stuckUntilNanos;
  private long railUntilNanos;
  private int rail;
  private int last;

  FaultyMachine(VirtualRig rig, Consumer<TrueCut> truths, Host host) {
    super(rig, truths, (nanos, bytes, length) -> length == 0 || host.take(nanos, bytes, length));
    line = new FaultyLine(SignalModel.stream(rig.seed(), 4));
  }

  @Override
  void perform(Script script) {
    asked += script.actions().size();
    super.perform(script);
  }

  void perform(FaultyScript script) {
    for (FaultyScript.Between fault : script.faults()) {
      toCome.add(new FaultyScript.Between(asked + fault.after(), fault.fault()));
    }
    perform(script.actions());
  }

  @Override
  void converted(int counts) {
    while (!toCome.isEmpty() && toCome.peek().after() <= finishedActions()) {
      inject(toCome.remove().fault());
    }
    if (nowNanos() < lostUntilNanos) {
      firmware.missed(nowNanos());
      return;
    }
    if (nowNanos() >= stuckUntilNanos) {
      last = nowNanos() < railUntilNanos ? rail : counts;
    }
    super.converted(last);
  }

  @Override
  boolean transmit(byte[] bytes, int length, int samples) {
    int arrived = line.carry(bytes, length, nowNanos());
    return super.transmit(line.arrived(), arrived, samples);
  }

  @Override
  void receive(byte[] bytes, int length, long nanos) {
    if (!line.silent(nanos)) {
      super.receive(bytes, length, nanos);
    }
  }

  /** Let a fault begin now. */
  void inject(Fault fault) {
    if (fault instanceof Fault.OfLine ofLine) {
      line.goWrong(ofLine, nowNanos());
    } else if (fault instanceof Fault.Overrange overrange) {
      rail = overrange.high() ? HIGHEST : LOWEST;
      railUntilNanos = until(overrange.seconds());
    } else if (fault instanceof Fault.Stuck stuck) {
      stuckUntilNanos = until(stuck.seconds());
    } else if (fault instanceof Fault.ConverterLost lost) {
      lostUntilNanos = until(lost.seconds());
    } else if (fault instanceof Fault.Reset reset) {
      if (reset.midFrame()) {
        transmit(broken, firmware.breakOff(broken), 0);
      }
      restart(identity.deviceId(), identity.protocolVersion(), reset.cause());
    } else if (fault instanceof Fault.AnotherDevice other) {
      restart(other.deviceId(), identity.protocolVersion(), Status.ResetCause.POWER_ON);
    } else if (fault instanceof Fault.NewerProtocol newer) {
      restart(identity.deviceId(), newer.version(), Status.ResetCause.POWER_ON);
    }
  }

  private long until(double seconds) {
    return nowNanos() + FaultyLine.inNanos(seconds);
  }

  private void restart(long deviceId, int protocolVersion, Status.ResetCause cause) {
    clock.reset(nowNanos());
    identity = new DeviceIdentity(deviceId, protocolVersion, cause);
    firmware.start(identity, nowNanos());
  }
}
