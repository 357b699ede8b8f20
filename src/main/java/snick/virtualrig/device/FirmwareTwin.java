package snick.virtualrig.device;

import java.util.OptionalInt;
import java.util.OptionalLong;
import snick.frame.binary.CommandDecoder;
import snick.frame.binary.DeviceFrames;
import snick.frame.message.Answer;
import snick.frame.message.CommandSink;
import snick.frame.message.Hello;
import snick.frame.message.HostCommand;
import snick.frame.message.Status;
import snick.quantity.SampleRate;
import snick.virtualrig.settings.ConverterSettings;
import snick.virtualrig.settings.DeviceSettings;
import snick.virtualrig.settings.RigSettings;
import snick.virtualrig.signal.Amplifier;
import snick.virtualrig.signal.Converter;

/** Firmware that speaks the wire protocol in binary frames: a pure state machine. */
public final class FirmwareTwin implements Firmware, CommandSink {
  private static final long STATUS_NANOS = 1_000_000_000;
  private static final long LONGEST_BATCH_NANOS = 25_000_000;
  private static final int SETTLING_CONVERSIONS = 4;
  private static final int LOST_AFTER = 4;
  private static final int STUCK_AFTER = 64;
  private static final int MOST_GAIN = 128;
  private static final int SUPPLY_MILLI_VOLTS = 4_985;
  private static final int CONVERTER_BITS = 24;

  /** Full scale is half the bridge supply, 5 V, over the gain. */
  private static final long HALF_SUPPLY_NANO_VOLTS = 2_500_000_000L;

  private final DeviceSettings settings;
  private final ConverterSettings converter;
  private final Amplifier amplifier;
  private final MicrosecondCounter clock;
  private final Uart uart;
  private final OutputRates rates;
  private final DeviceFrames frames = new DeviceFrames();
  private final CommandDecoder commands = new CommandDecoder();
  private final byte[] frame = new byte[DeviceFrames.MAX_BYTES];
  private final Outbox outbox = new Outbox();

  private DeviceIdentity identity;
  private SampleRate rate;
  private int gain;
  private boolean streaming;
  private int settling;
  private boolean settlingNumbered;
  private int missed;
  private long nowNanos;
  private long nextStatusNanos;
  private long dropped;
  private long overrange;
  private long leftOut;
  private int last;
  private int repeats;

  public FirmwareTwin(
      RigSettings rig,
      DeviceIdentity identity,
      Amplifier amplifier,
      MicrosecondCounter clock,
      Uart uart) {
    this.settings = rig.device();
    this.converter = rig.converter();
    this.identity = identity;
    this.amplifier = amplifier;
    this.clock = clock;
    this.uart = uart;
    this.rate = converter.rate();
    this.gain = converter.gain();
    this.rates = new OutputRates(rateMilliHertz());
  }

  @Override
  public void start(DeviceIdentity now, long nanos) {
    identity = now;
    nowNanos = nanos;
    outbox.restart();
    dropped = 0;
    overrange = 0;
    missed = 0;
    streaming = true;
    rate = converter.rate();
    gain = converter.gain();
    amplifier.setRate(rate);
    amplifier.setGain(gain);
    settle(false);
    nextStatusNanos = nanos + STATUS_NANOS;
    frame[0] = DeviceFrames.DELIMITER;
    uart.send(frame, 1, 0);
    sendHello();
    sendStatus();
  }

  private void settle(boolean numbered) {
    settling = SETTLING_CONVERSIONS;
    settlingNumbered = numbered;
  }

  @Override
  public void converted(int counts, long nanos) {
    nowNanos = nanos;
    if (lost()) {
      settle(outbox.nextSequence() > 0);
    }
    missed = 0;
    if (settling > 0) {
      leaveOut();
    } else {
      take(counts);
    }
    sendStatusWhenDue();
  }

  @Override
  public void missed(long nanos) {
    nowNanos = nanos;
    missed++;
    if (missed == LOST_AFTER) {
      sendSamples();
    }
    sendStatusWhenDue();
  }

  private boolean lost() {
    return missed >= LOST_AFTER;
  }

  private void leaveOut() {
    settling--;
    if (settlingNumbered && streaming) {
      outbox.skip();
      dropped++;
      leftOut++;
    }
  }

  @Override
  public long leftOut() {
    return leftOut;
  }

  private void take(int counts) {
    repeats = counts == last ? repeats + 1 : 0;
    last = counts;
    if (Converter.atRail(counts)) {
      overrange++;
    }
    if (streaming) {
      outbox.add(counts, nowMicros());
      if (outbox.size() >= batchSamples()) {
        sendSamples();
      }
    }
  }

  private int batchSamples() {
    long inTime = 1 + (long) (LONGEST_BATCH_NANOS / rate.periodNanos());
    return (int) Math.min(settings.batchSamples(), inTime);
  }

  private void sendStatusWhenDue() {
    if (nowNanos >= nextStatusNanos) {
      nextStatusNanos += STATUS_NANOS;
      sendStatus();
    }
  }

  @Override
  public void received(byte[] bytes, int length, long nanos) {
    nowNanos = nanos;
    commands.accept(bytes, 0, length, this);
  }

  @Override
  public void command(HostCommand command) {
    switch (command.type()) {
      case ASK_HELLO -> {
        sendHello();
        answer(command, Answer.Result.ACCEPTED, identity.protocolVersion());
      }
      case START -> {
        streaming = true;
        answer(command, Answer.Result.ACCEPTED, outbox.nextSequence());
      }
      case STOP -> {
        sendSamples();
        streaming = false;
        answer(command, Answer.Result.ACCEPTED, outbox.nextSequence());
      }
      case SET_RATE -> answer(command, setRate(command.value()), rateMilliHertz());
      case SET_GAIN -> answer(command, setGain((int) command.value()), gain);
      case PING -> answer(command, Answer.Result.ACCEPTED, command.value());
      default -> refused(command.type().code(), command.tag(), Answer.Result.UNKNOWN_COMMAND);
    }
  }

  private Answer.Result setRate(long milliHertz) {
    OptionalLong nearest = rates.nearest(milliHertz);
    if (nearest.isEmpty()) {
      return Answer.Result.OUT_OF_RANGE;
    }
    if (lost()) {
      return Answer.Result.NOT_POSSIBLE_NOW;
    }
    if (nearest.getAsLong() != rateMilliHertz()) {
      sendSamples();
      rate = new SampleRate(nearest.getAsLong() / 1000.0);
      amplifier.setRate(rate);
      settle(true);
      sendHello();
    }
    return Answer.Result.ACCEPTED;
  }

  private Answer.Result setGain(int asked) {
    if (asked < 1 || asked > MOST_GAIN || Integer.bitCount(asked) != 1) {
      return Answer.Result.OUT_OF_RANGE;
    }
    if (lost()) {
      return Answer.Result.NOT_POSSIBLE_NOW;
    }
    if (asked != gain) {
      sendSamples();
      gain = asked;
      amplifier.setGain(gain);
      settle(true);
      sendHello();
    }
    return Answer.Result.ACCEPTED;
  }

  private long rateMilliHertz() {
    return Math.round(rate.hertz() * 1000);
  }

  private void answer(HostCommand command, Answer.Result result, long value) {
    send(new Answer(command.type().code(), command.tag(), result, value, nowMicros()));
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
    if (lost()) {
      return Status.State.CONVERTER_LOST;
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
