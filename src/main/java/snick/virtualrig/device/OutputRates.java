package snick.virtualrig.device;

import java.util.OptionalLong;
import java.util.stream.LongStream;

/**
 * The output rates that the invented converter has besides the one it starts with. Immutable.
 *
 * @param startMilliHertz the rate it starts with, mHz
 */
record OutputRates(long startMilliHertz) {
  private static final long[] MILLI_HERTZ = {
    10_000,
    20_000,
    40_000,
    80_000,
    160_000,
    320_000,
    640_000,
    1_000_000,
    2_000_000,
    5_000_000,
    10_000_000
  };

  /** The nearest rate, mHz, if it lies within 10 % of the one asked for. */
  OptionalLong nearest(long askedMilliHertz) {
    LongStream all = LongStream.concat(LongStream.of(startMilliHertz), LongStream.of(MILLI_HERTZ));
    return all.filter(each -> 10 * Math.abs(each - askedMilliHertz) <= askedMilliHertz)
        .boxed()
        .min((a, b) -> Long.compare(Math.abs(a - askedMilliHertz), Math.abs(b - askedMilliHertz)))
        .map(OptionalLong::of)
        .orElse(OptionalLong.empty());
  }
}
