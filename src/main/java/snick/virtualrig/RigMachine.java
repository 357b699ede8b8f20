package snick.virtualrig;

import java.util.function.Consumer;
import snick.frame.binary.DeviceFrames;
import snick.frame.message.Status;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.device.DeviceIdentity;
import snick.virtualrig.device.Firmware;
import snick.virtualrig.device.FirmwareTwin;
import snick.virtualrig.device.MicrosecondCounter;
import snick.virtualrig.device.SketchTwin;
import snick.virtualrig.line.Sent;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.DeviceSettings;
import snick.virtualrig.settings.RigSettings;
import snick.virtualrig.signal.SignalModel;

/**
 * Model, firmware and line put together. Pure; time passes only in {@link #step}. For one thread.
 */
class RigMachine {
  private final SignalModel model;
  private final Host host;
  final Firmware firmware;
  final MicrosecondCounter clock;
  DeviceIdentity identity;
  private long nowNanos;
  private long samplesSent;
  private long samplesDropped;
  private boolean on;

  /** Whoever is at the far end of the line. */
  interface Host {
    /** Takes bytes at a true time, ns, if there is room; else they are dropped. */
    boolean take(long nanos, byte[] bytes, int length);
  }

  /**
   * A rig, switched off until its first step.
   *
   * @param truths told of each event, its time on the device's clock
   * @param host takes what arrives at the far end of the line
   */
  RigMachine(VirtualRig rig, Consumer<TrueCut> truths, Host host) {
    DeviceSettings device = rig.settings().device();
    this.host = host;
    this.clock = new MicrosecondCounter(device.clockErrorPpm(), device.startMicros());
    this.identity =
        new DeviceIdentity(
            device.deviceId(), DeviceFrames.PROTOCOL_VERSION, Status.ResetCause.POWER_ON);
    this.model =
        new SignalModel(
            rig.settings(),
            rig.seed(),
            cut -> truths.accept(cut.atNanos(clock.nanos(cut.breakNanos()))));
    this.firmware = firmware(rig.settings());
  }

  private Firmware firmware(RigSettings settings) {
    return settings
        .device()
        .text()
        .<Firmware>map(form -> new SketchTwin(settings, identity, form, clock, this::transmit))
        .orElseGet(() -> new FirmwareTwin(settings, identity, model, clock, this::transmit));
  }

  boolean transmit(byte[] bytes, int length, int samples) {
    boolean room = host.take(nowNanos, bytes, length);
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
    converted(counts);
  }

  void converted(int counts) {
    firmware.converted(counts, nowNanos);
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
    firmware.received(bytes, length, nanos);
  }

  /** What was sent so far. */
  Sent sent() {
    long leftOut = firmware.leftOut();
    return new Sent(samplesSent + leftOut, samplesDropped + leftOut, nowNanos);
  }
}
