package snick.sample;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.regex.Pattern;
import snick.frame.message.Answer;
import snick.frame.message.FrameSink;
import snick.frame.message.Hello;
import snick.frame.message.ReadingBatch;
import snick.frame.message.SampleBatch;
import snick.frame.message.Status;
import snick.quantity.SampleRate;

/**
 * Turns decoded frames and lines into one continuous series of samples: device time unwrapped,
 * missing samples and restarts marked, converter rails as values. Pure; one thread; allocates
 * nothing per sample.
 *
 * <p>Device time begins at 0 ns with the stream's first sample. After a restart of the device the
 * time that passed is unknown: the axis goes on by one sample period and the break is marked.
 *
 * <p>Samples are handed on in blocks: when a block is full, before anything is said that changes
 * what samples mean, and when the input pauses.
 */
public final class SampleStream implements FrameSink {
  private static final int DEFAULT_CONVERTER_BITS = 24;
  private static final Pattern PLAIN_NUMBER = Pattern.compile("\\d{1,9}(\\.\\d{1,9})?");

  private static final int BLOCK_SAMPLES = ReadingBatch.MAX_READINGS;

  private final SampleSink sink;
  private final long[] blockNanos = new long[BLOCK_SAMPLES];
  private final int[] blockCounts = new int[BLOCK_SAMPLES];
  private final DeviceClock clock = new DeviceClock();
  private final PeriodEstimate period;
  private final StreamFacts.Counter facts = new StreamFacts.Counter();

  private Optional<Hello> hello = Optional.empty();
  private Optional<Status> status = Optional.empty();
  private OptionalInt announcedGain = OptionalInt.empty();
  private int lowestCode = lowest(DEFAULT_CONVERTER_BITS);
  private int highestCode = highest(DEFAULT_CONVERTER_BITS);
  private int decimals;
  private int blockSize;
  private boolean anySample;
  private long late;
  private boolean sequenceKnown;
  private long nextSequence;
  private OptionalLong originMicros = OptionalLong.empty();

  /**
   * Makes a stream.
   *
   * @param assumedRate rate taken for text readings without time until the device announces one
   * @param sink takes the samples
   */
  public SampleStream(SampleRate assumedRate, SampleSink sink) {
    this.sink = sink;
    this.period = new PeriodEstimate(assumedRate.periodNanos());
  }

  @Override
  public void hello(Hello next) {
    flush();
    boolean changed = hello.isPresent() && !sameForm(hello.get(), next);
    hello = Optional.of(next);
    lowestCode = lowest(next.converterBits());
    highestCode = highest(next.converterBits());
    if (next.nominalRateMilliHertz() > 0) {
      period.nominal(1e12 / next.nominalRateMilliHertz());
    }
    if (changed) {
      breakAxis(Gap.Cause.FORM_CHANGED);
    }
  }

  private static boolean sameForm(Hello a, Hello b) {
    return a.deviceId() == b.deviceId()
        && a.gain() == b.gain()
        && a.converterBits() == b.converterBits()
        && a.nominalRateMilliHertz() == b.nominalRateMilliHertz();
  }

  @Override
  public void samples(SampleBatch batch) {
    place(batch);
    int last = batch.size() - 1;
    long spanNanos = batch.spanMicros() * 1000;
    long stepNanos = last == 0 ? 0 : spanNanos / last;
    emitEvenly(batch, stepNanos, spanNanos - stepNanos * last);
    clock.advance(spanNanos);
    nextSequence = (batch.sequence() + batch.size()) & DeviceClock.MASK_32;
    period.observe(stepNanos);
  }

  /** Sample i of the batch stands at the whole nanoseconds of span·i/last. */
  private void emitEvenly(SampleBatch batch, long stepNanos, long restPerStep) {
    int last = batch.size() - 1;
    long nanos = clock.nanos();
    long rest = 0;
    for (int i = 0; i <= last; i++) {
      emit(Math.min(nanos, DeviceClock.MOST_NANOS), batch.counts(i));
      nanos += stepNanos;
      rest += restPerStep;
      if (rest >= last) {
        rest -= last;
        nanos++;
      }
    }
  }

  /** Finds the time of the batch's first sample and marks what is missing before it. */
  private void place(SampleBatch batch) {
    if (!sequenceKnown) {
      sequenceKnown = true;
      startAxis(batch.firstMicros(), batch.spanMicros());
      return;
    }
    long missing = (batch.sequence() - nextSequence) & DeviceClock.MASK_32;
    double expectedNanos = (missing + 1.0) * period.nanos();
    long beforeNanos = clock.nanos();
    boolean wentBack = missing > DeviceClock.MASK_32 / 2;
    if (missing == 0 && pausedUntil(batch.firstMicros(), expectedNanos)) {
      clock.finishMove(batch.spanMicros());
      return;
    }
    if (wentBack || !clock.moveTo32(batch.firstMicros(), expectedNanos, missing > 0)) {
      facts.restart();
      startAxis(batch.firstMicros(), batch.spanMicros());
      return;
    }
    clock.finishMove(batch.spanMicros());
    if (missing > 0) {
      facts.lost(missing);
      gap(new Gap(Gap.Cause.LOST_SAMPLES, beforeNanos, clock.nanos(), missing));
    } else {
      period.observe(clock.nanos() - beforeNanos);
    }
  }

  /** Whether no sample is missing and yet the clock went far on: the device had stopped. */
  private boolean pausedUntil(long deviceMicros, double expectedNanos) {
    long beforeNanos = clock.nanos();
    if (!clock.movePaused(deviceMicros, expectedNanos)) {
      return false;
    }
    gap(new Gap(Gap.Cause.PAUSED, beforeNanos, clock.nanos(), 0));
    return true;
  }

  /** The device's counters begin anew: the axis goes on one period after the last sample. */
  private void startAxis(long deviceMicros, long spanMicros) {
    if (anySample) {
      breakAxis(Gap.Cause.DEVICE_RESET);
    }
    if (!anySample) {
      originMicros = OptionalLong.of(deviceMicros);
    }
    clock.restart(deviceMicros, anySample ? Math.round(period.nanos()) : 0);
    clock.finishMove(spanMicros);
  }

  private void breakAxis(Gap.Cause cause) {
    if (anySample) {
      gap(new Gap(cause, clock.nanos(), clock.nanos(), 0));
      facts.broken(cause);
    }
  }

  @Override
  public void reading(int counts) {
    take(counts);
  }

  @Override
  public void reading(long deviceMicros, int counts) {
    take(deviceMicros, counts);
  }

  @Override
  public void readings(ReadingBatch batch) {
    int size = batch.size();
    if (batch.timed()) {
      for (int i = 0; i < size; i++) {
        take(batch.micros(i), batch.counts(i));
      }
    } else {
      for (int i = 0; i < size; i++) {
        take(batch.counts(i));
      }
    }
  }

  private void take(int counts) {
    if (anySample) {
      clock.advance(Math.round(period.nanos()));
    }
    facts.timeless();
    emit(clock.nanos(), counts);
  }

  private void take(long deviceMicros, int counts) {
    if (!anySample) {
      originMicros = OptionalLong.of(deviceMicros);
      clock.restart(deviceMicros, 0);
    } else if (!moveTo(deviceMicros)) {
      return;
    }
    emit(clock.nanos(), counts);
  }

  /**
   * Whether the reading was made when it was stamped: one that a sender kept while it stalled, and
   * sends after, is one of those counted as lost.
   */
  private boolean moveTo(long deviceMicros) {
    long beforeNanos = clock.nanos();
    if (!clock.moveToPrinted(deviceMicros)) {
      facts.restart();
      breakAxis(Gap.Cause.DEVICE_RESET);
      clock.restart(deviceMicros, Math.round(period.nanos()));
      return true;
    }
    long stepNanos = clock.nanos() - beforeNanos;
    long missing = period.missing(stepNanos);
    if (missing > 0) {
      late = missing;
      facts.lost(missing);
      gap(new Gap(Gap.Cause.LOST_SAMPLES, beforeNanos, clock.nanos(), missing));
      return true;
    }
    if (late > 0 && period.isLate(stepNanos)) {
      late--;
      return false;
    }
    late = 0;
    period.observe(stepNanos);
    return true;
  }

  private void emit(long deviceNanos, int counts) {
    anySample = true;
    facts.sample();
    if (decimals == 0 && (counts <= lowestCode || counts >= highestCode)) {
      facts.overrange();
      flush();
      sink.overrange(deviceNanos, counts <= lowestCode ? Rail.LOW : Rail.HIGH);
    } else {
      blockNanos[blockSize] = deviceNanos;
      blockCounts[blockSize++] = counts;
      if (blockSize == BLOCK_SAMPLES) {
        flush();
      }
    }
  }

  private void gap(Gap gap) {
    flush();
    sink.gap(gap);
  }

  /** Hands on the samples that wait, never more than a block. */
  @Override
  public void flush() {
    if (blockSize > 0) {
      int size = blockSize;
      blockSize = 0;
      sink.samples(blockNanos, blockCounts, size);
    }
  }

  @Override
  public void status(Status next) {
    status = Optional.of(next);
  }

  @Override
  public void answer(Answer answer) {
    // An answer concerns whoever asked; samples do not depend on it.
  }

  @Override
  public void announcement(String key, String value) {
    flush();
    if (key.equals("rate")) {
      announcedNumber(value, 100_000).ifPresent(hertz -> period.nominal(1e9 / hertz));
    } else if (key.equals("gain")) {
      announcedNumber(value, 65_535).ifPresent(gain -> announcedGain = OptionalInt.of((int) gain));
    }
  }

  private static OptionalDouble announcedNumber(String text, double most) {
    if (!PLAIN_NUMBER.matcher(text).matches()) {
      return OptionalDouble.empty();
    }
    double number = Double.parseDouble(text);
    return number > 0 && number <= most ? OptionalDouble.of(number) : OptionalDouble.empty();
  }

  @Override
  public void decimals(int digits) {
    flush();
    if (digits != decimals) {
      breakAxis(Gap.Cause.FORM_CHANGED);
    }
    decimals = digits;
  }

  /** The link was closed and opened again: what was missed is unknown. */
  public void linkReopened() {
    breakAxis(Gap.Cause.LINK_REOPENED);
    facts.reopened();
  }

  /** Nothing follows. */
  public void end() {
    flush();
    sink.end();
  }

  /** What the device last said of itself; empty for text streams. */
  public Optional<Hello> hello() {
    return hello;
  }

  /** How the device last said it is doing. */
  public Optional<Status> status() {
    return status;
  }

  /** The amplifier's gain, from hello or announced in text. */
  public OptionalInt gain() {
    return hello.isPresent() ? OptionalInt.of(hello.get().gain()) : announcedGain;
  }

  /** Digits after the decimal point that one count stands for; 0 for plain counts. */
  public int decimals() {
    return decimals;
  }

  /** Time from sample to sample on the device's clock, ns, as measured; nominal until then. */
  public double periodNanos() {
    return period.nanos();
  }

  /** Device time of the last sample, ns. */
  public long lastNanos() {
    return clock.nanos();
  }

  /** Reading of the device's counter at time 0, µs; empty before, and for text without time. */
  public OptionalLong originMicros() {
    return originMicros;
  }

  /** What happened so far. Allocates. */
  public StreamFacts facts() {
    return facts.snapshot(clock.wraps());
  }

  private static int highest(int bits) {
    return (1 << (bits - 1)) - 1;
  }

  private static int lowest(int bits) {
    return -(1 << (bits - 1));
  }
}
