package snick.virtualrig;

import java.util.OptionalInt;
import snick.frame.Answer;
import snick.frame.CommandDecoder;
import snick.frame.CommandSink;
import snick.frame.DeviceFrames;
import snick.frame.Hello;
import snick.frame.HostCommand;
import snick.frame.HostFrames;
import snick.frame.Status;
import snick.quantity.SampleRate;

/** Firmware that speaks the wire protocol in binary frames: a pure state machine. */
final class FirmwareTwin implements Firmware, CommandSink {
  private static final long STATUS_NANOS = 1_000_000_000;
  private static final long LEAST_MILLI_HERTZ = 1_000;
  private static final long MOST_MILLI_HERTZ = 10_000_000;
  private static final int MOST_GAIN = 128;
  private static final int SUPPLY_MILLI_VOLTS = 4_985;

  /** Full scale is half the bridge supply, 5 V, over the gain. */
  private static final long HALF_SUPPLY_NANO_VOLTS = 2_500_000_000L;

  private static final int STUCK_AFTER = 64;
  private static final int SETTLING_CONVERSIONS = 4;
  private static final double LONGEST_BATCH_SECONDS = 0.025;
  private static final int CONVERTER_BITS = 24;

  private final DeviceSettings settings;
  private final ConverterSettings converter;
  private final Amplifier amplifier;
  private final DeviceClock clock;
  private final Uart uart;
  private final DeviceFrames frames = new DeviceFrames();
  private final CommandDecoder commands = new CommandDecoder();
  private final byte[] frame = new byte[DeviceFrames.MAX_BYTES];
  private final Outbox outbox;

  private DeviceIdentity identity;
  private SampleRate rate;
  private int gain;
  private boolean streaming;
  private long nowNanos;
  private long nextStatusNanos;
  private long dropped;
  private long overrange;
  private int last;
  private int repeats;
  private int settling;

  FirmwareTwin(
      RigSettings rig, DeviceIdentity identity, Amplifier amplifier, DeviceClock clock, Uart uart) {
    this.settings = rig.device();
    this.identity = identity;
    this.amplifier = amplifier;
    this.clock = clock;
    this.uart = uart;
    this.outbox = new Outbox(settings.batchSamples());
    this.converter = rig.converter();
    this.rate = converter.rate();
    this.gain = converter.gain();
  }

  @Override
  public void start(DeviceIdentity now, long nanos) {
    identity = now;
    nowNanos = nanos;
    outbox.restart();
    dropped = 0;
    overrange = 0;
    settling = 0;
    streaming = settings.startsAtOnce();
    rate = converter.rate();
    gain = converter.gain();
    amplifier.setRate(rate);
    amplifier.setGain(gain);
    nextStatusNanos = nanos + STATUS_NANOS;
    frame[0] = DeviceFrames.DELIMITER;
    uart.send(frame, 1, 0);
    sendHello();
    sendStatus();
  }

  @Override
  public void converted(int counts, long nanos) {
    nowNanos = nanos;
    if (settling > 0) {
      settling--;
      leaveOut();
    } else {
      take(counts, clock.micros(nanos));
    }
    if (nanos >= nextStatusNanos) {
      nextStatusNanos += STATUS_NANOS;
      sendStatus();
    }
  }

  /** A conversion while the converter settles has a number and is not sent. */
  private void leaveOut() {
    if (streaming) {
      outbox.skip();
      dropped++;
    }
  }

  private void take(int counts, long micros) {
    observe(counts);
    if (streaming) {
      outbox.add(counts, micros);
      if (outbox.size() >= batchLimit()) {
        sendSamples();
      }
    }
  }

  /** No sample waits longer than 25 ms for its batch. */
  private int batchLimit() {
    return Math.min(settings.batchSamples(), 1 + (int) (rate.hertz() * LONGEST_BATCH_SECONDS));
  }

  private void observe(int counts) {
    repeats = counts == last ? repeats + 1 : 0;
    last = counts;
    if (Converter.atRail(counts)) {
      overrange++;
    }
  }

  @Override
  public void received(byte[] bytes, int length, long nanos) {
    nowNanos = nanos;
    commands.accept(bytes, 0, length, this);
  }

  @Override
  public void command(HostCommand command) {
    if (command instanceof HostCommand.AskHello) {
      sendHello();
      answer(command, true, identity.protocolVersion());
    } else if (command instanceof HostCommand.Start) {
      streaming = true;
      answer(command, true, outbox.nextSequence());
    } else if (command instanceof HostCommand.Stop) {
      sendSamples();
      streaming = false;
      answer(command, true, outbox.nextSequence());
    } else if (command instanceof HostCommand.SetRate set) {
      setRate(set);
    } else if (command instanceof HostCommand.SetGain set) {
      setGain(set);
    } else if (command instanceof HostCommand.Ping ping) {
      answer(command, true, ping.token());
    }
  }

  private void setRate(HostCommand.SetRate set) {
    boolean possible =
        set.milliHertz() >= LEAST_MILLI_HERTZ && set.milliHertz() <= MOST_MILLI_HERTZ;
    if (possible && set.milliHertz() != rateMilliHertz()) {
      sendSamples();
      rate = new SampleRate(set.milliHertz() / 1000.0);
      amplifier.setRate(rate);
      settleAndSayHello();
    }
    answer(set, possible, rateMilliHertz());
  }

  private void setGain(HostCommand.SetGain set) {
    boolean possible =
        set.gain() >= 1 && set.gain() <= MOST_GAIN && Integer.bitCount(set.gain()) == 1;
    if (possible && set.gain() != gain) {
      sendSamples();
      gain = set.gain();
      amplifier.setGain(gain);
      settleAndSayHello();
    }
    answer(set, possible, gain);
  }

  private void settleAndSayHello() {
    settling = SETTLING_CONVERSIONS;
    sendHello();
  }

  private long rateMilliHertz() {
    return Math.round(rate.hertz() * 1000);
  }

  private void answer(HostCommand command, boolean possible, long value) {
    Answer.Result result = possible ? Answer.Result.ACCEPTED : Answer.Result.OUT_OF_RANGE;
    send(new Answer(HostFrames.type(command), command.tag(), result, value, nowMicros()));
  }

  @Override
  public void refused(int type, int tag, Answer.Result reason) {
    send(new Answer(type, tag, reason, 0, nowMicros()));
  }

  private long nowMicros() {
    return clock.micros(nowNanos);
  }

  private void send(Answer answer) {
    uart.send(frame, frames.answer(answer, frame, 0), 0);
  }

  private void sendHello() {
    Hello hello =
        new Hello(
            identity.protocolVersion(),
            identity.deviceId(),
            settings.firmware(),
            CONVERTER_BITS,
            gain,
            rateMilliHertz(),
            HALF_SUPPLY_NANO_VOLTS / gain);
    uart.send(frame, frames.hello(hello, frame, 0), 0);
  }

  private void sendStatus() {
    Status status =
        new Status(
            nowMicros(),
            OptionalInt.of(amplifier.temperatureCentiCelsius()),
            OptionalInt.of(SUPPLY_MILLI_VOLTS),
            dropped,
            overrange,
            identity.resetCause(),
            state());
    uart.send(frame, frames.status(status, frame, 0), 0);
  }

  private Status.State state() {
    if (!streaming) {
      return Status.State.IDLE;
    }
    boolean stuck = repeats >= STUCK_AFTER && !Converter.atRail(last);
    return stuck ? Status.State.CONVERTER_STUCK : Status.State.STREAMING;
  }

  private void sendSamples() {
    int samples = outbox.size();
    if (samples > 0 && !uart.send(frame, outbox.write(frames, frame), samples)) {
      dropped += samples;
    }
  }

  @Override
  public int breakOff(byte[] to) {
    return outbox.size() > 0 ? outbox.write(frames, to) / 2 : 0;
  }
}
