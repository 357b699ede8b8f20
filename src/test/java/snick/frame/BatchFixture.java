package snick.frame;

import snick.frame.message.SampleBatch;

/** Makes batches for tests of later stages. */
public final class BatchFixture {
  private BatchFixture() {}

  /** A batch of {@code counts}. */
  public static SampleBatch batch(long sequence, long firstMicros, long spanMicros, int... counts) {
    SampleBatch batch = new SampleBatch();
    batch.begin(sequence, firstMicros, spanMicros);
    for (int reading : counts) {
      batch.add(reading);
    }
    return batch;
  }
}
