package snick.frame;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.Blackhole;
import snick.frame.binary.DeviceFrames;
import snick.frame.message.Answer;
import snick.frame.message.FrameSink;
import snick.frame.message.Hello;
import snick.frame.message.SampleBatch;
import snick.frame.message.Status;
import snick.frame.text.LineParser;

/**
 * Samples decoded a second, on one core, bytes handed over in chunks of 64 KiB. Run it with {@code
 * src/bench/jmh DecoderBench}; {@code -prof gc} shows that nothing is allocated per sample.
 */
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class DecoderBench {
  static final int SAMPLES = 64 * 1024;
  private static final int CHUNK_BYTES = 64 * 1024;
  private static final int NOISE_COUNTS = 40;

  /** Sums what it is given, so that nothing can be left out. */
  static final class Sum implements FrameSink {
    long sum;

    @Override
    public void samples(SampleBatch batch) {
      long batchSum = batch.sequence() + batch.firstMicros() + batch.spanMicros();
      for (int i = 0; i < batch.size(); i++) {
        batchSum += batch.counts(i);
      }
      sum += batchSum;
    }

    @Override
    public void reading(int counts) {
      sum += counts;
    }

    @Override
    public void reading(long deviceMicros, int counts) {
      sum += deviceMicros + counts;
    }

    @Override
    public void flush() {}

    @Override
    public void hello(Hello hello) {
      sum++;
    }

    @Override
    public void status(Status status) {
      sum++;
    }

    @Override
    public void answer(Answer answer) {
      sum++;
    }

    @Override
    public void announcement(String key, String value) {
      sum++;
    }

    @Override
    public void decimals(int digits) {
      sum++;
    }
  }

  private static int noisyCount(SplittableRandom random) {
    return 84_000 + random.nextInt(-NOISE_COUNTS, NOISE_COUNTS);
  }

  private static void decode(StreamDecoder decoder, byte[] stream, Sum sink) {
    for (int at = 0; at < stream.length; at += CHUNK_BYTES) {
      decoder.accept(stream, at, Math.min(CHUNK_BYTES, stream.length - at), sink);
    }
  }

  /** Frames of a given batch size. */
  @State(Scope.Thread)
  public static class Binary {
    /** Samples in each frame. */
    @Param({"1", "16", "64"})
    public int batchSize;

    private final StreamDecoder decoder = StreamDecoder.ofAnyForm(StreamDecoder.Start.MIDWAY);
    private final Sum sink = new Sum();
    private byte[] stream = {};

    /** Writes the stream. */
    @Setup
    public void write() {
      SplittableRandom random = new SplittableRandom(1);
      DeviceFrames frames = new DeviceFrames();
      byte[] to = new byte[(SAMPLES / batchSize + 1) * DeviceFrames.MAX_BYTES];
      int[] counts = new int[batchSize];
      int length = 0;
      for (long sequence = 0; sequence < SAMPLES; sequence += batchSize) {
        for (int i = 0; i < batchSize; i++) {
          counts[i] = noisyCount(random);
        }
        long micros = sequence * 12_500;
        long span = (batchSize - 1) * 12_500L;
        length += frames.samples(sequence, micros, span, counts, 0, batchSize, to, length);
      }
      stream = Arrays.copyOf(to, length);
    }
  }

  /** Lines of a given form. */
  @State(Scope.Thread)
  public static class Text {
    /** {@code counts}, {@code micros,counts}, the same with checksum, or gf with decimals. */
    @Param({"counts", "timed", "checked", "decimal"})
    public String form;

    private final StreamDecoder decoder = StreamDecoder.ofAnyForm(StreamDecoder.Start.MIDWAY);
    private final Sum sink = new Sum();
    private byte[] stream = {};

    /** Writes the stream. */
    @Setup
    public void write() {
      SplittableRandom random = new SplittableRandom(1);
      StringBuilder text = new StringBuilder();
      for (long i = 0; i < SAMPLES; i++) {
        text.append(line(i * 12_500, noisyCount(random))).append('\n');
      }
      stream = text.toString().getBytes(StandardCharsets.US_ASCII);
    }

    private String line(long micros, int counts) {
      return switch (form) {
        case "counts" -> Integer.toString(counts);
        case "timed" -> micros + "," + counts;
        case "checked" -> checked(micros + "," + counts);
        default -> micros + "," + counts / 1000 + "." + counts % 1000;
      };
    }

    private static String checked(String body) {
      byte[] bytes = body.getBytes(StandardCharsets.US_ASCII);
      int xor = LineParser.xor(bytes, 0, bytes.length);
      return String.format(Locale.ROOT, "%s*%02X", body, xor);
    }
  }

  /** Binary decoding. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public void binary(Binary binary, Blackhole hole) {
    decode(binary.decoder, binary.stream, binary.sink);
    hole.consume(binary.sink.sum);
  }

  /** Text decoding. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public void text(Text text, Blackhole hole) {
    decode(text.decoder, text.stream, text.sink);
    hole.consume(text.sink.sum);
  }
}
