package snick.firmware;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;
import snick.frame.StreamDecoder;
import snick.frame.message.Answer;
import snick.frame.message.Hello;
import snick.frame.message.SampleBatch;
import snick.frame.message.Status;
import snick.frame.message.Tally;
import snick.port.ByteLink;
import snick.port.PortAddress;
import snick.port.Ports;

/** The recorder's port and decoder, keeping all that a board sent. */
final class Host extends SilentSink implements AutoCloseable {
  private static final int BAUD = 115_200;

  final List<Hello> hellos = new ArrayList<>();
  final List<Status> statuses = new ArrayList<>();
  final List<Answer> answers = new ArrayList<>();
  final List<Long> sequences = new ArrayList<>();
  final List<Integer> counts = new ArrayList<>();
  final List<Long> firstMicros = new ArrayList<>();
  final List<Long> spansMicros = new ArrayList<>();
  final ByteArrayOutputStream raw = new ByteArrayOutputStream();

  private final StreamDecoder decoder = StreamDecoder.ofAnyForm(StreamDecoder.Start.MIDWAY);
  private final ByteLink link;
  private final byte[] buffer = new byte[4096];

  private Host(ByteLink link) {
    this.link = link;
  }

  static Host open(Path port) throws IOException {
    return new Host(new Ports(BAUD).openLink(new PortAddress.SerialDevice(port)));
  }

  /** Reads until there is enough. */
  void readUntil(BooleanSupplier enough) throws IOException {
    while (!enough.getAsBoolean()) {
      int length = link.read(buffer);
      raw.write(buffer, 0, length);
      decoder.accept(buffer, 0, length, this);
    }
  }

  void send(byte[] bytes) throws IOException {
    link.write(bytes);
  }

  Tally tally() {
    return decoder.tally();
  }

  Status lastStatus() {
    return statuses.get(statuses.size() - 1);
  }

  @Override
  public void hello(Hello hello) {
    hellos.add(hello);
  }

  @Override
  public void samples(SampleBatch batch) {
    for (int i = 0; i < batch.size(); i++) {
      sequences.add(batch.sequence() + i);
      counts.add(batch.counts(i));
    }
    firstMicros.add(batch.firstMicros());
    spansMicros.add(batch.spanMicros());
  }

  @Override
  public void status(Status status) {
    statuses.add(status);
  }

  @Override
  public void answer(Answer answer) {
    answers.add(answer);
  }

  @Override
  public void close() throws IOException {
    link.close();
  }
}
