package snick.frame;

import java.util.ArrayList;
import java.util.List;
import java.util.StringJoiner;
import snick.frame.message.Answer;
import snick.frame.message.FrameSink;
import snick.frame.message.Hello;
import snick.frame.message.SampleBatch;
import snick.frame.message.Status;

/** Writes down what a decoder hands on, one line a call. */
final class Received implements FrameSink {
  final List<String> calls = new ArrayList<>();
  final List<Hello> hellos = new ArrayList<>();

  @Override
  public void hello(Hello hello) {
    hellos.add(hello);
    calls.add(hello.toString());
  }

  @Override
  public void samples(SampleBatch batch) {
    calls.add(batch(batch));
  }

  private static String batch(SampleBatch batch) {
    StringJoiner counts = new StringJoiner(" ");
    for (int i = 0; i < batch.size(); i++) {
      counts.add(Integer.toString(batch.counts(i)));
    }
    return "samples "
        + batch.sequence()
        + " "
        + batch.firstMicros()
        + " "
        + batch.spanMicros()
        + ": "
        + counts;
  }

  @Override
  public void status(Status status) {
    calls.add(status.toString());
  }

  @Override
  public void answer(Answer answer) {
    calls.add(answer.toString());
  }

  @Override
  public void announcement(String key, String value) {
    calls.add(key + " = " + value);
  }

  @Override
  public void decimals(int digits) {
    calls.add("decimals " + digits);
  }

  @Override
  public void reading(int counts) {
    calls.add("reading " + counts);
  }

  @Override
  public void reading(long deviceMicros, int counts) {
    calls.add("reading " + deviceMicros + " " + counts);
  }

  @Override
  public void flush() {}
}
