package snick.virtualrig;

import java.util.ArrayDeque;
import java.util.Queue;
import java.util.function.Consumer;
import snick.frame.binary.DeviceFrames;
import snick.frame.message.Status;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.device.DeviceIdentity;
import snick.virtualrig.device.Firmware;
import snick.virtualrig.device.FirmwareTwin;
import snick.virtualrig.device.MicrosecondCounter;
import snick.virtualrig.device.SketchTwin;
import snick.virtualrig.device.Uart;
import snick.virtualrig.line.FaultyLine;
import snick.virtualrig.line.Sent;
import snick.virtualrig.script.Fault;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.DeviceSettings;
import snick.virtualrig.settings.RigSettings;
import snick.virtualrig.signal.SignalModel;

/**
 * Model, firmware and line put together. Pure; time passes only in {@link #step}. For one thread.
 */
final class RigMachine {
  private final SignalModel model;
  private final Firmware firmware;
  private final MicrosecondCounter clock;
  private final FaultyLine line;
  private final Uart host;
  private final Consumer<Fault.HangUp> hangUps;
  private final Queue<Fault> scripted = new ArrayDeque<>();
  private final byte[] broken = new byte[DeviceFrames.MAX_BYTES];
  private DeviceIdentity identity;
  private long nowNanos;
  private long samplesSent;
  private long samplesDropped;
  private boolean on;

  /**
   * A rig, switched off until its first step.
   *
   * @param truths told of each event, its time on the device's clock
   * @param host takes what arrives at the far end of the line
   * @param hangUps told when the cable is pulled; the line is silent for that time as well
   */
  RigMachine(VirtualRig rig, Consumer<TrueCut> truths, Uart host, Consumer<Fault.HangUp> hangUps) {
    DeviceSettings device = rig.settings().device();
    this.host = host;
    this.hangUps = hangUps;
    this.clock = new MicrosecondCounter(device.clockErrorPpm(), device.startMicros());
    this.line = new FaultyLine(SignalModel.stream(rig.seed(), 4));
    this.identity =
        new DeviceIdentity(
            device.deviceId(), DeviceFrames.PROTOCOL_VERSION, Status.ResetCause.POWER_ON);
    this.model =
        new SignalModel(
            rig.settings(),
            rig.seed(),
            cut -> truths.accept(cut.atNanos(clock.nanos(cut.breakNanos()))),
            scripted::add);
    this.firmware = firmware(rig.settings());
  }

  private Firmware firmware(RigSettings settings) {
    return settings
        .device()
        .text()
        .<Firmware>map(form -> new SketchTwin(settings, identity, form, clock, this::transmit))
        .orElseGet(() -> new FirmwareTwin(settings, identity, model, clock, this::transmit));
  }

  private boolean transmit(byte[] bytes, int length, int samples) {
    int arrived = line.carry(bytes, length, nowNanos);
    boolean room = arrived == 0 || host.send(line.arrived(), arrived, samples);
    samplesSent += samples;
    samplesDropped += room ? 0 : samples;
    return room;
  }

  void perform(Script script) {
    script.actions().forEach(model::perform);
  }

  long finishedActions() {
    return model.finishedActions();
  }

  /** True time of the last step, ns since power-on. */
  long nowNanos() {
    return nowNanos;
  }

  /** True time of the next step, ns since power-on. */
  long nextNanos() {
    return model.nextNanos();
  }

  /** Let the time of one conversion pass. */
  void step() {
    switchOn();
    long due = model.nextNanos();
    int counts = model.convert();
    nowNanos = due;
    for (Fault fault = scripted.poll(); fault != null; fault = scripted.poll()) {
      inject(fault);
    }
    if (model.converterLost()) {
      firmware.missed(nowNanos);
    } else {
      firmware.converted(counts, nowNanos);
    }
  }

  private void switchOn() {
    if (!on) {
      on = true;
      firmware.start(identity, nowNanos);
    }
  }

  /** The host's bytes reach the device at this true time, ns. */
  void receive(byte[] bytes, int length, long nanos) {
    switchOn();
    if (!line.silent(nanos)) {
      firmware.received(bytes, length, nanos);
    }
  }

  /** Let a fault begin now. */
  void inject(Fault fault) {
    if (fault instanceof Fault.OfConverter ofConverter) {
      model.goWrong(ofConverter);
    } else if (fault instanceof Fault.OfDevice ofDevice) {
      restart(ofDevice);
    } else if (fault instanceof Fault.OfLine ofLine) {
      line.goWrong(ofLine, nowNanos);
      if (ofLine instanceof Fault.HangUp hangUp) {
        hangUps.accept(hangUp);
      }
    }
  }

  private void restart(Fault.OfDevice fault) {
    if (fault instanceof Fault.Reset reset && reset.midFrame()) {
      int length = firmware.breakOff(broken);
      transmit(broken, length, 0);
    }
    clock.reset(nowNanos);
    identity = identity.after(fault);
    firmware.start(identity, nowNanos);
  }

  /** What was sent so far. */
  Sent sent() {
    long leftOut = firmware.leftOut();
    return new Sent(samplesSent + leftOut, samplesDropped + leftOut, nowNanos);
  }
}
