package snick.daemon;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Executor;
import java.util.function.Function;
import java.util.function.UnaryOperator;
import snick.cut.CutDetector;
import snick.cut.CutSink;
import snick.cut.DetectorSettings;
import snick.frame.Form;
import snick.frame.StreamDecoder;
import snick.frame.message.FrameSink;
import snick.frame.message.Tally;
import snick.frame.text.Columns;
import snick.frame.text.TextRule;
import snick.live.RigState;
import snick.quantity.SampleRate;
import snick.sample.SampleSink;
import snick.sample.SampleStream;

/**
 * Bytes in, finished cuts out: decoder, samples and detector in a row. The same for live, replay
 * and offline. Pure but for whatever its ends do; one thread.
 */
public final class Pipeline {
  private final StreamDecoder decoder;
  private final SampleStream stream;
  private final CutDetector detector;
  private final FrameSink entry;

  /**
   * What a pipeline is made of.
   *
   * @param form binary or text; empty: found out
   * @param assumedRate rate of text readings without time
   * @param detector what the detector is told beforehand
   * @param text how text lines are read
   */
  public record Settings(
      Optional<Form> form, SampleRate assumedRate, DetectorSettings detector, TextRule text) {
    /** Columns of text are found out. */
    public Settings(Optional<Form> form, SampleRate assumedRate, DetectorSettings detector) {
      this(form, assumedRate, detector, new TextRule.FoundOut());
    }

    /** The same; text, unless something else is asked for, is read in the columns kept of it. */
    public Settings withKept(Optional<Columns> kept) {
      return text instanceof TextRule.FoundOut && kept.isPresent()
          ? new Settings(form, assumedRate, detector, new TextRule.Named(kept.get()))
          : this;
    }

    /** A decoder for such a stream. */
    public StreamDecoder decoder(StreamDecoder.Start start) {
      return StreamDecoder.of(form, text, start);
    }

    /** Form found out, 80 samples per second, the detector's defaults. */
    public static Settings defaults() {
      return new Settings(Optional.empty(), new SampleRate(80), DetectorSettings.defaults());
    }
  }

  /** A pipeline straight from bytes to {@code cuts}. */
  public Pipeline(Settings settings, CutSink cuts) {
    this(settings, new CutDetector(settings.detector(), cuts));
  }

  /**
   * A pipeline straight from bytes to {@code cuts}, whose forces are estimated beside it: {@link
   * #handOn} hands on what is found. The rig's response is learned as it goes.
   *
   * @param beside runs one task at a time, in order
   */
  public Pipeline(Settings settings, CutSink cuts, Executor beside) {
    this(settings, CutDetector.learning(settings.detector(), cuts, beside));
  }

  private Pipeline(Settings settings, CutDetector detector) {
    this(
        settings,
        StreamDecoder.Start.AT_BEGINNING,
        detector,
        UnaryOperator.identity(),
        stream -> stream);
  }

  /**
   * A pipeline that is watched.
   *
   * @param start where in the device's stream the first byte stands
   * @param watchSamples puts something before the detector
   * @param guardStream puts something before the sample stream
   */
  Pipeline(
      Settings settings,
      StreamDecoder.Start start,
      CutDetector detector,
      UnaryOperator<SampleSink> watchSamples,
      Function<SampleStream, FrameSink> guardStream) {
    this.decoder = settings.decoder(start);
    this.detector = detector;
    this.stream = new SampleStream(settings.assumedRate(), watchSamples.apply(detector));
    this.entry = guardStream.apply(stream);
  }

  /** Takes {@code length} bytes. */
  public void accept(byte[] bytes, int length) {
    decoder.accept(bytes, 0, length, entry);
  }

  /** Hands on every cut that is found. */
  public void handOn() {
    detector.handOn();
  }

  /** The link was opened again: half a frame may be left of the old one. */
  void linkReopened() {
    decoder.linkReopened();
    stream.linkReopened();
  }

  /** Nothing follows: an event in flight ends as truncated. */
  public void end() {
    decoder.end(entry);
    stream.end();
  }

  /** What the decoder accepted and threw away. */
  public Tally tally() {
    return decoder.tally();
  }

  /** The decoder, for what it made of text. */
  public StreamDecoder decoder() {
    return decoder;
  }

  /** The form of the stream, once recognised. */
  public Optional<Form> form() {
    return decoder.recognised();
  }

  /** The series of samples. */
  public SampleStream stream() {
    return stream;
  }

  /** Samples per second on the device's clock; empty while neither sample nor hello has come. */
  OptionalDouble rateHertz() {
    boolean came = stream.hello().isPresent() || stream.facts().samples() > 0;
    return came ? OptionalDouble.of(1e9 / stream.periodNanos()) : OptionalDouble.empty();
  }

  /** What the detector takes for rest; empty until it knows. */
  Optional<RigState.Rest> rest() {
    return detector.restKnown()
        ? Optional.of(new RigState.Rest(detector.levelCounts(), detector.noiseCounts()))
        : Optional.empty();
  }

  /** The detector, for its live state. */
  public CutDetector detector() {
    return detector;
  }
}
