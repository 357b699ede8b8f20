package snick.daemon;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import snick.daemon.link.HelloRequests;
import snick.daemon.link.HostTime;
import snick.daemon.link.RigInUseException;
import snick.daemon.link.RigLock;
import snick.force.reading.RigSetting;
import snick.frame.StreamDecoder;
import snick.frame.message.FrameSink;
import snick.frame.message.Hello;
import snick.frame.message.Tally;
import snick.frame.text.Columns;
import snick.port.ByteSource;
import snick.port.PortAddress;
import snick.port.Ports;
import snick.quantity.SampleRate;
import snick.sample.HostClockFit;
import snick.sample.SampleSink;
import snick.sample.SampleStream;

/**
 * The samples of one rig for a person at the bench: nothing is recorded. Holds the rig's lock, so
 * that a recorder and this never read the same port. One thread.
 */
public final class LiveFeed implements AutoCloseable {
  private static final int BUFFER_BYTES = 1 << 14;

  /** Gain of a rig that does not say. */
  static final int USUAL_GAIN = 128;

  private final PortAddress address;
  private final ByteSource source;
  private final Optional<RigLock> lock;
  private final SampleRate assumedRate;
  private final StreamDecoder decoder;
  private final SampleStream stream;
  private final FrameSink entry;
  private final Identity identity = new Identity();
  private final HostClockFit clockFit = new HostClockFit();
  private final HelloRequests requests;
  private final byte[] buffer = new byte[BUFFER_BYTES];

  /**
   * Opens {@code address} and takes its lock.
   *
   * @param lockFolder where locks lie
   * @param settings form and assumed rate; the detector's settings are not used
   * @param sink takes the samples, on the thread that calls {@link #turn}
   * @param time by which the device is asked who it is
   * @throws RigInUseException if the rig is being recorded
   * @throws snick.port.PortException if it cannot be opened
   */
  public LiveFeed(
      Ports ports,
      PortAddress address,
      Path lockFolder,
      Pipeline.Settings settings,
      SampleSink sink,
      HostTime time)
      throws IOException, RigInUseException {
    this.address = address;
    this.assumedRate = settings.assumedRate();
    this.decoder =
        settings.decoder(
            address.live() ? StreamDecoder.Start.MIDWAY : StreamDecoder.Start.AT_BEGINNING);
    this.stream = new SampleStream(assumedRate, sink);
    this.entry = new DeviceGate(stream, identity);
    this.requests = new HelloRequests(time);
    this.lock =
        address.live()
            ? Optional.of(RigLock.take(lockFolder, RigLock.nameOf(address)))
            : Optional.empty();
    try {
      this.source = ports.open(address);
    } catch (IOException | RuntimeException e) {
      release(lock);
      throw e;
    }
  }

  private static void release(Optional<RigLock> lock) throws IOException {
    if (lock.isPresent()) {
      lock.get().close();
    }
  }

  /**
   * Reads what is there, about 100 ms at most for a device, and hands its samples on.
   *
   * @return false once a file has ended
   * @throws snick.port.LinkLostException if the device went away
   */
  public boolean turn() throws IOException {
    askHello();
    int count = source.read(buffer);
    if (count > 0) {
      decoder.accept(buffer, 0, count, entry);
      clockFit.observe(stream.lastNanos(), source.arrivalNanos());
    }
    if (source.ended()) {
      decoder.end(entry);
      stream.end();
      return false;
    }
    return true;
  }

  private void askHello() throws IOException {
    if (identity.deviceId.isEmpty()) {
      requests.askIfDue(source);
    }
  }

  /** Rig and setting, once the device said who it is or sent its first reading as text. */
  public Optional<RigSetting> setting(int polarity) {
    return identity.deviceId.map(
        id ->
            new RigSetting(
                id, stream.gain().orElse(USUAL_GAIN), nominalRate().orElse(assumedRate), polarity));
  }

  /** Rate that the device names; empty for text. */
  public Optional<SampleRate> nominalRate() {
    return stream.hello().map(h -> new SampleRate(h.nominalRateMilliHertz() / 1000.0));
  }

  /** The device that answers now instead of the one that did at first. */
  public Optional<String> stranger() {
    return identity.stranger;
  }

  /** Reading of the device's counter at time 0, µs; empty before, and for text without time. */
  public OptionalLong originMicros() {
    return stream.originMicros();
  }

  /** What the decoder made of text: its columns, or the first line that it refused. */
  public StreamDecoder decoder() {
    return decoder;
  }

  /** What the decoder accepted and threw away. */
  public Tally tally() {
    return decoder.tally();
  }

  /**
   * Device clock against host clock, ppm; empty before some seconds have passed, and for files
   * without arrival times.
   */
  public OptionalDouble clockErrorPpm() {
    return address.live() ? clockFit.rateErrorPpm() : OptionalDouble.empty();
  }

  @Override
  public void close() throws IOException {
    try (source) {
      release(lock);
    }
  }

  /** Who is there. */
  private final class Identity implements DeviceGate.Listener {
    private Optional<String> deviceId = Optional.empty();
    private Optional<String> stranger = Optional.empty();

    @Override
    public void textBegan(String deviceName) {
      String name = deviceName.isEmpty() ? "text:" + address.text() : deviceName;
      deviceId = Optional.of(Columns.rigName(name, decoder.columns()));
    }

    @Override
    public void admitted(Hello hello) {
      deviceId = Optional.of(hello.deviceIdText());
    }

    @Override
    public void stranger(Hello hello, long expectedDeviceId) {
      stranger = Optional.of(hello.deviceIdText());
    }

    @Override
    public void newerProtocol(Hello hello) {}
  }
}
