package snick.conformance;

import java.io.ByteArrayOutputStream;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.UnaryOperator;
import snick.frame.StreamDecoder;
import snick.frame.binary.DeviceFrames;
import snick.frame.message.Answer;
import snick.frame.message.FrameSink;
import snick.frame.message.Hello;
import snick.frame.message.SampleBatch;
import snick.frame.message.Status;
import snick.virtualrig.Rendering;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.settings.Altered;
import snick.virtualrig.settings.DeviceSettings;
import snick.virtualrig.settings.RigSettings;

/**
 * The virtual rig without a port, as a line of its own time; what it says can be tilted message by
 * message, as faulty firmware would.
 */
final class TiltedRig implements Line, FrameSink {
  private static final long NANOS_PER_MICRO = 1_000;
  private static final int TYPE_ON_THE_WIRE = 1;

  private final ByteArrayOutputStream onItsWay = new ByteArrayOutputStream();
  private final StreamDecoder decoder = StreamDecoder.ofAnyForm(StreamDecoder.Start.AT_BEGINNING);
  private final DeviceFrames frames = new DeviceFrames();
  private final byte[] frame = new byte[DeviceFrames.MAX_BYTES];
  private final Rendering rig;
  private long rigNanos;

  /** Host time for each unit of rig time. */
  double hostPace = 1;

  UnaryOperator<Answer> answers = answer -> answer;
  UnaryOperator<Hello> hellos = hello -> hello;
  Function<Status, Optional<Status>> statuses = Optional::of;
  int answerCopies = 1;
  int helloCopies = 1;

  /** What is added to the sequence number of a batch. */
  Function<SampleBatch, Long> renumbering = batch -> 0L;

  /** Factor on the time within and between batches. */
  double stretch = 1;

  /** No samples are passed on. */
  boolean silentAboutSamples;

  /** The type of each status frame is spoilt. */
  boolean spoilsStatus;

  /** Bytes that the device does not hear. */
  Function<byte[], Boolean> deaf = bytes -> false;

  TiltedRig() {
    this(Altered.withClockErrorPpm(DeviceSettings.USUAL, 0));
  }

  TiltedRig(DeviceSettings device) {
    rig =
        new Rendering(
            new VirtualRig(RigSettings.USUAL.with(device), 1),
            (nanos, bytes, length) -> {
              rigNanos = nanos;
              decoder.accept(bytes, 0, length, this);
            },
            truth -> {});
  }

  @Override
  public void send(byte[] bytes) {
    if (!deaf.apply(bytes)) {
      rig.receive(bytes);
    }
  }

  @Override
  public int receive(byte[] buffer) {
    rig.play(1);
    rigNanos = rig.sent().trueNanos();
    byte[] bytes = onItsWay.toByteArray();
    onItsWay.reset();
    System.arraycopy(bytes, 0, buffer, 0, bytes.length);
    return bytes.length;
  }

  @Override
  public long nanos() {
    return (long) (rig.sent().trueNanos() * hostPace);
  }

  private void pass(int length, int copies) {
    for (int i = 0; i < copies; i++) {
      onItsWay.write(frame, 0, length);
    }
  }

  @Override
  public void hello(Hello hello) {
    pass(frames.hello(hellos.apply(hello), frame, 0), helloCopies);
  }

  @Override
  public void samples(SampleBatch batch) {
    if (silentAboutSamples) {
      return;
    }
    int[] counts = new int[batch.size()];
    for (int i = 0; i < counts.length; i++) {
      counts[i] = batch.counts(i);
    }
    long spanMicros = Math.round(batch.spanMicros() * stretch);
    pass(
        frames.samples(
            batch.sequence() + renumbering.apply(batch),
            Math.round(batch.firstMicros() * stretch),
            spanMicros,
            counts,
            0,
            counts.length,
            frame,
            0),
        1);
  }

  @Override
  public void status(Status status) {
    statuses
        .apply(status)
        .ifPresent(
            said -> {
              int length = frames.status(said, frame, 0);
              frame[TYPE_ON_THE_WIRE] ^= (byte) (spoilsStatus ? 1 : 0);
              pass(length, 1);
            });
  }

  @Override
  public void answer(Answer answer) {
    pass(frames.answer(answers.apply(answer), frame, 0), answerCopies);
  }

  /** Rig time of the last message, µs. */
  long rigMicros() {
    return rigNanos / NANOS_PER_MICRO;
  }

  @Override
  public void announcement(String key, String value) {}

  @Override
  public void decimals(int digits) {}

  @Override
  public void reading(int counts) {}

  @Override
  public void reading(long deviceMicros, int counts) {}

  @Override
  public void flush() {}
}
