package snick.exchange;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import snick.cut.Cut;
import snick.cut.CutDetector;
import snick.cut.CutSink;
import snick.cut.DetectorSettings;
import snick.exchange.json.RefusedPackage;
import snick.exchange.table.DigestedFile;
import snick.frame.Form;
import snick.frame.StreamDecoder;
import snick.frame.text.Columns;
import snick.frame.text.TextRule;
import snick.phrase.NotAccepted;
import snick.quantity.SampleRate;
import snick.sample.SampleStream;
import snick.store.Intake;
import snick.store.Store;
import snick.store.record.NewCut;
import snick.store.record.Origin;
import snick.store.record.Recording;

/**
 * Takes an old recording into a store: the text log of a home-made sketch ({@code micros,counts} or
 * {@code counts} a line), or a capture. The bytes go through the decoder and detector of live
 * streams, twice: once to know what they are, once to store what they hold, in one transaction.
 */
public final class LogImport {
  private final String name;
  private final Opening opening;
  private final SampleRate assumedRate;
  private final TextRule text;

  /** Opens the recording from its beginning. */
  @FunctionalInterface
  public interface Opening {
    /** The bytes; closed by who opened them. */
    Bytes open() throws IOException;
  }

  /** Bytes of a recording. */
  public interface Bytes extends AutoCloseable {
    /** Fills {@code buffer}; number of bytes, 0 for none just now, −1 at the end. */
    int read(byte[] buffer) throws IOException;

    @Override
    void close() throws IOException;
  }

  /**
   * What a recording is.
   *
   * @param sha256 digest of its bytes
   * @param samples samples in it
   * @param cuts cuts found in it
   * @param length from the first sample to the last, by the device's clock
   * @param deviceId what the device calls itself; empty in text
   * @param recognition what columns of text were taken for; empty if they were not found out
   * @param whyNoReadings why it holds none, if so
   */
  public record Facts(
      String sha256,
      long samples,
      int cuts,
      Duration length,
      Optional<String> deviceId,
      Optional<String> recognition,
      String whyNoReadings) {}

  /**
   * An import.
   *
   * @param name name of the file
   * @param assumedRate rate of text without time stamps
   */
  public LogImport(String name, Opening opening, SampleRate assumedRate) {
    this(name, opening, assumedRate, new TextRule.FoundOut());
  }

  /**
   * An import of text whose form is known.
   *
   * @param text how text lines are read
   */
  public LogImport(String name, Opening opening, SampleRate assumedRate, TextRule text) {
    this.text = text;
    this.name = name;
    this.opening = opening;
    this.assumedRate = assumedRate;
  }

  /** Reads it once, and stores nothing. */
  public Facts look() throws IOException {
    var digest = DigestedFile.sha256();
    Decoding decoding = new Decoding(cut -> {});
    decode(decoding, (buffer, length) -> digest.update(buffer, 0, length));
    return new Facts(
        DigestedFile.hex(digest),
        decoding.stream.facts().samples(),
        decoding.detector.found(),
        Duration.ofNanos(decoding.stream.lastNanos()),
        decoding.stream.hello().map(h -> h.deviceIdText()),
        decoding.decoder.recognition(),
        decoding.decoder.whyNoReadings());
  }

  /**
   * Stores its cuts as a recording of {@code deviceId} that began at {@code startedAt}.
   *
   * @param facts what {@link #look} gave
   * @throws RefusedPackage if it contradicts the store, or is no longer what it was; then nothing
   *     was stored
   */
  public Origin.Outcome into(Store store, Facts facts, String deviceId, Instant startedAt)
      throws IOException {
    try {
      return store.takeIn(
          new Origin("log", facts.sha256(), name, ""),
          intake -> takeIn(intake, facts, deviceId, startedAt));
    } catch (UncheckedIOException e) {
      throw e.getCause();
    } catch (NotAccepted e) {
      throw new RefusedPackage(name + ": " + e.getMessage() + "; nothing was stored", e);
    }
  }

  private void takeIn(Intake intake, Facts facts, String deviceId, Instant startedAt) {
    var digest = DigestedFile.sha256();
    Keeping keeping = new Keeping(intake, deviceId, startedAt);
    Decoding decoding = new Decoding(keeping);
    keeping.decoding = decoding;
    try {
      decode(decoding, (buffer, length) -> digest.update(buffer, 0, length));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    if (!DigestedFile.hex(digest).equals(facts.sha256())) {
      throw new RefusedPackage(name + " changed while it was read; try again");
    }
  }

  private void decode(Decoding decoding, Tap tap) throws IOException {
    byte[] buffer = new byte[1 << 16];
    try (Bytes bytes = opening.open()) {
      int count = bytes.read(buffer);
      while (count >= 0) {
        tap.bytes(buffer, count);
        decoding.decoder.accept(buffer, 0, count, decoding.stream);
        count = bytes.read(buffer);
      }
    }
    decoding.decoder.end(decoding.stream);
    decoding.stream.end();
  }

  @FunctionalInterface
  private interface Tap {
    void bytes(byte[] buffer, int length);
  }

  /** Decoder, samples and detector in a row. */
  private final class Decoding {
    final StreamDecoder decoder =
        StreamDecoder.of(Optional.empty(), text, StreamDecoder.Start.AT_BEGINNING);
    final CutDetector detector;
    final SampleStream stream;

    Decoding(CutSink cuts) {
      detector = new CutDetector(DetectorSettings.defaults(), cuts);
      stream = new SampleStream(assumedRate, detector);
    }
  }

  /** Stores each cut; the recording with the first, when it is known what the stream is. */
  private static final class Keeping implements CutSink {
    private final Intake intake;
    private final String deviceId;
    private final Instant startedAt;
    private Decoding decoding;
    private OptionalLong recording = OptionalLong.empty();

    Keeping(Intake intake, String deviceId, Instant startedAt) {
      this.intake = intake;
      this.deviceId = deviceId;
      this.startedAt = startedAt;
    }

    @Override
    public void cut(Cut cut) {
      if (recording.isEmpty()) {
        recording = OptionalLong.of(intake.recording(recording(), Optional.empty()));
      }
      Instant at = startedAt.plusNanos(cut.breakNanos().orElse(cut.onsetNanos()));
      intake.cut(NewCut.of(recording.getAsLong(), at, cut), Cut.DETECTOR_VERSION, List.of());
    }

    private Recording recording() {
      boolean text = decoding.decoder.recognised().equals(Optional.of(Form.TEXT));
      return new Recording(
          Columns.rigName(deviceId, decoding.decoder.columns()),
          decoding.stream.hello().map(h -> h.firmware()).orElse(""),
          "an old recording",
          text ? Recording.Form.TEXT : Recording.Form.BINARY,
          startedAt,
          decoding.stream.gain(),
          decoding
              .stream
              .hello()
              .filter(h -> h.nominalRateMilliHertz() > 0)
              .map(h -> new SampleRate(h.nominalRateMilliHertz() / 1000.0)),
          decoding.stream.decimals());
    }
  }
}
