package snick.frame.message;

/**
 * Takes what the decoder makes of the device's bytes, in order, from one thread. Whatever could not
 * be decoded is counted in the decoder's {@link Tally}, not reported here.
 */
public interface FrameSink {
  /** The device says who it is. */
  void hello(Hello hello);

  /** Samples of a binary stream; the batch is valid only during the call. */
  void samples(SampleBatch batch);

  /** The device says how it is doing. */
  void status(Status status);

  /** The device answers a command. */
  void answer(Answer answer);

  /**
   * A text stream announced something: {@code # key=value}. Untrusted text, at most 64 and 128
   * characters, control characters replaced.
   */
  void announcement(String key, String value);

  /**
   * From here on, text readings are in units of 10^−{@code digits}; 0 until said otherwise. Called
   * before the first reading with a decimal point, and again should readings outgrow the unit.
   *
   * @param digits 0 to 9
   */
  void decimals(int digits);

  /** One text reading without time, in units of the last digit. */
  void reading(int counts);

  /**
   * One text reading with time.
   *
   * @param deviceMicros device clock, µs, as printed (a 32-bit counter wraps)
   * @param counts reading in units of the last digit
   */
  void reading(long deviceMicros, int counts);

  /** No more for now: whatever waits to be handed on in larger pieces should go on its way. */
  void flush();

  /** Several text readings; the batch is valid only during the call. */
  default void readings(ReadingBatch batch) {
    for (int i = 0; i < batch.size(); i++) {
      if (batch.timed()) {
        reading(batch.micros(i), batch.counts(i));
      } else {
        reading(batch.counts(i));
      }
    }
  }
}
