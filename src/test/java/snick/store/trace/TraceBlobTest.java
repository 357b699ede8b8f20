package snick.store.trace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;
import snick.cut.Trace;
import snick.cut.rest.Before;
import snick.sample.Gap;
import snick.store.Examples;

class TraceBlobTest {
  /** Any 64-bit times, any 32-bit readings: also what no rig would send. */
  @Provide
  Arbitrary<Trace> anyTrace() {
    return samples(Arbitraries.longs(), Arbitraries.integers());
  }

  /** Regular microseconds with jitter, 24-bit readings. */
  @Provide
  Arbitrary<Trace> usualTrace() {
    Arbitrary<Long> nanos = Arbitraries.longs().between(0, 1L << 40).map(i -> i * 1_000);
    return samples(nanos, Arbitraries.integers().between(-(1 << 23), (1 << 23) - 1));
  }

  private static Arbitrary<Trace> samples(Arbitrary<Long> times, Arbitrary<Integer> readings) {
    Arbitrary<Sample> sample =
        Combinators.combine(times, readings, Arbitraries.of(true, false)).as(Sample::new);
    return Combinators.combine(sample.list().ofMaxSize(200), gap().list().ofMaxSize(5))
        .as(TraceBlobTest::trace);
  }

  private static Arbitrary<Gap> gap() {
    return Combinators.combine(
            Arbitraries.of(Gap.Cause.class),
            Arbitraries.longs(),
            Arbitraries.longs(),
            Arbitraries.longs().greaterOrEqual(0))
        .as((cause, a, b, lost) -> new Gap(cause, Math.min(a, b), Math.max(a, b), lost));
  }

  private record Sample(long deviceNanos, int counts, boolean overrange) {}

  private static Trace trace(List<Sample> samples, List<Gap> gaps) {
    long[] deviceNanos = samples.stream().mapToLong(Sample::deviceNanos).toArray();
    int[] counts = samples.stream().mapToInt(Sample::counts).toArray();
    boolean[] overrange = new boolean[counts.length];
    for (int i = 0; i < overrange.length; i++) {
      overrange[i] = samples.get(i).overrange();
    }
    return new Trace(deviceNanos, counts, overrange, gaps);
  }

  @Property(tries = 500)
  void anyTraceComesBackExactly(@ForAll("anyTrace") Trace trace) {
    assertThat(TraceBlob.decode(TraceBlob.encode(trace))).isEqualTo(trace);
  }

  @Property(tries = 500)
  void usualTraceComesBackExactly(@ForAll("usualTrace") Trace trace) {
    assertThat(TraceBlob.decode(TraceBlob.encode(trace))).isEqualTo(trace);
  }

  @Test
  void regularTraceTakesAboutThreeBytesASample() {
    assertThat(TraceBlob.encode(Examples.trace(1, 600))).hasSizeLessThan(600 * 32 / 10);
  }

  @Property(tries = 40)
  void everyCutOffBlobIsRefused(@ForAll("usualTrace") Trace trace) {
    byte[] whole = TraceBlob.encode(trace);
    for (int length = 0; length < whole.length; length++) {
      byte[] part = java.util.Arrays.copyOf(whole, length);
      assertThatThrownBy(() -> TraceBlob.decode(part)).isInstanceOf(MalformedTraceException.class);
    }
  }

  /** Whatever the bytes: a trace or a refusal, and no array larger than the bytes allow. */
  @Property(tries = 2000)
  void anyBytesGiveATraceOrARefusal(@ForAll byte[] bytes) {
    byte[] blob = bytes.clone();
    if (blob.length > 0) {
      blob[0] = 1;
    }
    try {
      assertThat(TraceBlob.decode(blob).size()).isLessThan(bytes.length);
    } catch (MalformedTraceException refused) {
      assertThat(refused).hasMessageMatching("(?s).+");
    }
  }

  @Test
  void hugeSizesAreRefusedBeforeAnythingIsAllocated() {
    VarintWriter out = new VarintWriter(16);
    out.octet(1);
    out.unsigned(Integer.MAX_VALUE);
    assertThatThrownBy(() -> TraceBlob.decode(out.bytes()))
        .hasMessage("2147483647 items announced, 0 bytes left");
  }

  @Test
  void unknownFormatIsNamed() {
    assertThatThrownBy(() -> TraceBlob.decode(new byte[] {9}))
        .hasMessage("trace format 9, known: 1");
  }

  @Test
  void everyCauseOfAGapHasACode() {
    assertThat(TraceBlob.CAUSES).containsExactlyInAnyOrder(Gap.Cause.values());
  }

  /** Frozen bytes: stored traces must stay readable, whatever the encoder does later. */
  @Test
  void formatOneReadsAsWritten() {
    byte[] bytes = {
      1,
      4, // format, samples
      (byte) 0xE8,
      0x07, // unit 1000 ns
      0x0A, // first at 5 ns
      0x06,
      0x00,
      0x03, // steps 3, 3, 1 units
      0x14,
      0x03,
      0x02,
      0x00, // readings 10, 8, 9, 9
      1,
      2,
      1, // one run: skip 2, length 1
      1,
      3,
      0x0A,
      0x05,
      0x07, // one gap: form changed, from 5, 5 long, 7 lost
      0 // nothing is told of before
    };
    Trace expected =
        new Trace(
            new long[] {5, 3_005, 6_005, 7_005},
            new int[] {10, 8, 9, 9},
            new boolean[] {false, false, true, false},
            List.of(new Gap(Gap.Cause.FORM_CHANGED, 5, 10, 7)));
    assertThat(TraceBlob.decode(bytes)).isEqualTo(expected);
    assertThat(TraceBlob.encode(expected)).isEqualTo(bytes);
  }

  /** What the stream had told, each number as IEEE 754 has it: 1.0 begins with 3F F0. */
  @Test
  void whatCameBeforeComesBackExactly() {
    Before before =
        new Before(
            1,
            -1,
            0,
            new Before.AtRest(1, -0.0, 1e-3, 7.25, true, false),
            3.125e6 + 1.0 / 16,
            zero());
    Trace trace =
        new Trace(
            new long[] {5, 9}, new int[] {1, 2}, new boolean[2], List.of(), Optional.of(before));
    byte[] bytes = TraceBlob.encode(trace);
    assertThat(TraceBlob.decode(bytes)).isEqualTo(trace);
    assertThat(bytes).containsSubsequence(1, 1, 1, 0, 0x3F, 0xF0, 0, 0, 0, 0, 0, 0, 0x80, 0);
    byte[] beyond = bytes.clone();
    beyond[10] = 2;
    assertThatThrownBy(() -> TraceBlob.decode(beyond)).hasMessageContaining("sample 2 of 2");
  }

  private static Before.Zero zero() {
    return new Before.Zero(0.1, Double.POSITIVE_INFINITY, -1e-300, 4, -0.5, -3);
  }

  /** LEB128 examples of the DWARF 5 standard, 7.6, figure 7.22 (from memory). */
  @Test
  void integersAreLeb128() {
    List<byte[]> coded = new ArrayList<>();
    for (long value : new long[] {2, 127, 128, 129, 12_857}) {
      VarintWriter out = new VarintWriter(1);
      out.unsigned(value);
      coded.add(out.bytes());
    }
    assertThat(coded)
        .containsExactly(
            new byte[] {2},
            new byte[] {127},
            new byte[] {(byte) 0x80, 1},
            new byte[] {(byte) 0x81, 1},
            new byte[] {(byte) 0xB9, 0x64});
  }

  /** The check value of CRC-32C: catalogue of parametrised CRC algorithms (from memory). */
  @Test
  void checksumIsCrc32c() {
    assertThat(TraceBlob.checksum("123456789".getBytes(StandardCharsets.US_ASCII)))
        .isEqualTo(0xE3069283L);
  }
}
