package snick.conformance;

import java.util.ArrayList;
import java.util.List;
import snick.frame.message.Answer;
import snick.frame.message.FrameSink;
import snick.frame.message.Hello;
import snick.frame.message.SampleBatch;
import snick.frame.message.Status;

/** All that the device said, in order. */
final class Heard implements FrameSink {
  private final List<Arrival> events = new ArrayList<>();
  private long nanos;

  /** What comes now arrived at this time. */
  void at(long arrivalNanos) {
    nanos = arrivalNanos;
  }

  int size() {
    return events.size();
  }

  /** Events from index {@code from} on. */
  List<Arrival> since(int from) {
    return List.copyOf(events.subList(from, events.size()));
  }

  /** Events of one kind from index {@code from} on. */
  <E extends Arrival> List<E> since(int from, Class<E> kind) {
    return events.subList(from, events.size()).stream()
        .filter(kind::isInstance)
        .map(kind::cast)
        .toList();
  }

  @Override
  public void hello(Hello hello) {
    events.add(new Arrival.SaidHello(nanos, hello));
  }

  @Override
  public void samples(SampleBatch batch) {
    events.add(
        new Arrival.Samples(
            nanos, batch.sequence(), batch.firstMicros(), batch.spanMicros(), batch.size()));
  }

  @Override
  public void status(Status status) {
    events.add(new Arrival.Reported(nanos, status));
  }

  @Override
  public void answer(Answer answer) {
    events.add(new Arrival.Answered(nanos, answer));
  }

  @Override
  public void announcement(String key, String value) {}

  @Override
  public void decimals(int digits) {}

  @Override
  public void reading(int counts) {}

  @Override
  public void reading(long deviceMicros, int counts) {}

  @Override
  public void flush() {}
}
