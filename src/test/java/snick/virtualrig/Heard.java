package snick.virtualrig;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;
import snick.frame.StreamDecoder;
import snick.frame.message.Answer;
import snick.frame.message.FrameSink;
import snick.frame.message.Hello;
import snick.frame.message.SampleBatch;
import snick.frame.message.Status;
import snick.virtualrig.line.Arrivals;

/** A host that decodes and keeps all it hears. */
public final class Heard implements FrameSink, Arrivals {
  public final StreamDecoder decoder = StreamDecoder.ofAnyForm(StreamDecoder.Start.AT_BEGINNING);
  public final List<Object> messages = new ArrayList<>();
  public final List<Hello> hellos = new ArrayList<>();
  public final List<Status> statuses = new ArrayList<>();
  public final List<Answer> answers = new ArrayList<>();
  public final List<Long> sequences = new ArrayList<>();
  public final List<Long> micros = new ArrayList<>();
  public final List<Integer> counts = new ArrayList<>();
  public final List<String> announcements = new ArrayList<>();
  public final ByteArrayOutputStream raw = new ByteArrayOutputStream();
  public int decimals;
  public long lastNanos;

  @Override
  public void arrive(long nanos, byte[] bytes, int length) {
    lastNanos = nanos;
    raw.write(bytes, 0, length);
    decoder.accept(bytes, 0, length, this);
  }

  @Override
  public void hello(Hello hello) {
    hellos.add(hello);
    messages.add(hello);
  }

  @Override
  public void samples(SampleBatch batch) {
    for (int i = 0; i < batch.size(); i++) {
      sequences.add(batch.sequence() + i);
      counts.add(batch.counts(i));
    }
    micros.add(batch.firstMicros());
    micros.add((batch.firstMicros() + batch.spanMicros()) & 0xFFFF_FFFFL);
    messages.add(batch.size());
  }

  @Override
  public void status(Status status) {
    statuses.add(status);
    messages.add(status);
  }

  @Override
  public void answer(Answer answer) {
    answers.add(answer);
    messages.add(answer);
  }

  @Override
  public void announcement(String key, String value) {
    announcements.add(key + "=" + value);
  }

  @Override
  public void decimals(int digits) {
    decimals = digits;
  }

  @Override
  public void reading(int reading) {
    counts.add(reading);
  }

  @Override
  public void reading(long deviceMicros, int reading) {
    micros.add(deviceMicros);
    counts.add(reading);
  }

  @Override
  public void flush() {}
}
