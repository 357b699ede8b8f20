package snick.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import snick.frame.message.Tally;

/** Floods of eight million bytes: nothing handed on, all counted, and the decoder still decodes. */
class HostileInputTest {
  private static final int FLOOD_BYTES = 8_000_000;
  private static final int CHUNK_BYTES = 8_000;

  private static byte[] filled(char with) {
    byte[] chunk = new byte[CHUNK_BYTES];
    Arrays.fill(chunk, (byte) with);
    return chunk;
  }

  private static Supplier<byte[]> noise(int lowest) {
    SplittableRandom random = new SplittableRandom(99);
    byte[] chunk = new byte[CHUNK_BYTES];
    return () -> {
      for (int i = 0; i < chunk.length; i++) {
        chunk[i] = (byte) random.nextInt(lowest, 256);
      }
      return chunk;
    };
  }

  @TestFactory
  Stream<DynamicTest> floods() {
    return Stream.of(
        flood("ones", () -> filled('\u00FF'), FLOOD_BYTES),
        flood("endless line of digits", () -> filled('7'), FLOOD_BYTES),
        flood("endless line of spaces", () -> filled(' '), FLOOD_BYTES),
        flood("line feeds", () -> filled('\n'), 0),
        flood("zeros", () -> filled('\0'), 0),
        flood("noise without zeros", noise(128), FLOOD_BYTES));
  }

  private static DynamicTest flood(String name, Supplier<byte[]> chunks, long skipped) {
    return DynamicTest.dynamicTest(
        name,
        () -> {
          StreamDecoder decoder = StreamDecoder.ofAnyForm(StreamDecoder.Start.MIDWAY);
          Received received = new Received();
          for (int sent = 0; sent < FLOOD_BYTES; sent += CHUNK_BYTES) {
            decoder.accept(chunks.get(), 0, CHUNK_BYTES, received);
          }
          assertThat(received.calls).isEmpty();
          byte[] frame = Bytes.samples(7, 1000, 0, 11);
          byte[] good = Bytes.join(new byte[1], frame, frame);
          decoder.accept(good, 0, good.length, received);
          assertThat(received.calls).containsOnly("samples 7 1000 0: 11").hasSize(2);
          assertThat(decoder.tally().thrownAway().bytes()).isEqualTo(skipped);
        });
  }

  /** Expected of noise: a frame between zeros passes the CRC by chance once in 65 536. */
  @TestFactory
  Stream<DynamicTest> noiseHandsOnNoMoreThanTheOddsAllow() {
    return Stream.of(Form.BINARY, Form.TEXT)
        .map(
            form ->
                DynamicTest.dynamicTest(
                    form.toString(),
                    () -> {
                      StreamDecoder decoder =
                          StreamDecoder.of(form, StreamDecoder.Start.AT_BEGINNING);
                      Supplier<byte[]> noise = noise(0);
                      Received received = new Received();
                      for (int sent = 0; sent < FLOOD_BYTES; sent += CHUNK_BYTES) {
                        decoder.accept(noise.get(), 0, CHUNK_BYTES, received);
                      }
                      Tally tally = decoder.tally();
                      assertThat(tally.samples()).isLessThan(form == Form.BINARY ? 3L : 100L);
                      assertThat(tally.thrownAway().bytes()).isGreaterThan(FLOOD_BYTES * 9L / 10);
                    }));
  }
}
