package snick.daemon;

import java.util.OptionalLong;
import snick.frame.message.Answer;
import snick.frame.message.FrameSink;
import snick.frame.message.Hello;
import snick.frame.message.ReadingBatch;
import snick.frame.message.SampleBatch;
import snick.frame.message.Status;
import snick.sample.SampleStream;

/**
 * Stands between decoder and samples on a live link: binary samples pass only after a hello of the
 * expected device, so that a rig that was swapped, or a stale buffer, never becomes part of another
 * rig's series. Text streams have no identity and pass. One thread.
 */
final class DeviceGate implements FrameSink {
  /** Newest protocol version that this program speaks. */
  static final int PROTOCOL_VERSION = 1;

  /** Told of what concerns the link, on the reader's thread. */
  interface Listener {
    /** A text stream gives its first reading; {@code deviceName} is what it announced, or empty. */
    void textBegan(String deviceName);

    /** The expected device is there, or its settings changed; samples pass from now on. */
    void admitted(Hello hello);

    /** Another device than the expected one answers; its samples are left out. */
    void stranger(Hello hello, long expectedDeviceId);

    /** The device speaks a newer protocol; what is known of it is used. */
    void newerProtocol(Hello hello);
  }

  private final SampleStream stream;
  private final Listener listener;
  private OptionalLong expectedDevice = OptionalLong.empty();
  private boolean open;
  private boolean text;
  private String announcedDevice = "";

  DeviceGate(SampleStream stream, Listener listener) {
    this.stream = stream;
    this.listener = listener;
  }

  /** The link was opened: wait for a hello again. */
  void shut() {
    open = false;
  }

  @Override
  public void hello(Hello hello) {
    stream.flush();
    if (expectedDevice.isPresent() && expectedDevice.getAsLong() != hello.deviceId()) {
      open = false;
      listener.stranger(hello, expectedDevice.getAsLong());
      return;
    }
    if (hello.protocolVersion() > PROTOCOL_VERSION) {
      listener.newerProtocol(hello);
    }
    expectedDevice = OptionalLong.of(hello.deviceId());
    stream.hello(hello);
    open = true;
    listener.admitted(hello);
  }

  @Override
  public void samples(SampleBatch batch) {
    if (open) {
      stream.samples(batch);
    }
  }

  @Override
  public void status(Status status) {
    if (open) {
      stream.status(status);
    }
  }

  @Override
  public void answer(Answer answer) {
    // Nothing but a hello is asked for.
  }

  @Override
  public void announcement(String key, String value) {
    if (key.equals("device")) {
      announcedDevice = value;
    }
    stream.announcement(key, value);
  }

  private void begin() {
    if (!text) {
      text = true;
      listener.textBegan(announcedDevice);
    }
  }

  @Override
  public void decimals(int digits) {
    stream.decimals(digits);
  }

  @Override
  public void reading(int counts) {
    begin();
    stream.reading(counts);
  }

  @Override
  public void reading(long deviceMicros, int counts) {
    begin();
    stream.reading(deviceMicros, counts);
  }

  @Override
  public void readings(ReadingBatch batch) {
    begin();
    stream.readings(batch);
  }

  @Override
  public void flush() {
    stream.flush();
  }

  /** Whether samples pass: the device said hello, or sends text. */
  boolean passing() {
    return open || text;
  }
}
