package snick.daemon.link;

import java.io.IOException;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import snick.frame.Form;
import snick.frame.StreamDecoder;
import snick.frame.message.Hello;
import snick.frame.text.RefusedLine;
import snick.frame.text.TextRule;
import snick.port.ByteLink;
import snick.port.PortAddress;
import snick.port.Ports;
import snick.quantity.SampleRate;
import snick.sample.IgnoredSamples;
import snick.sample.SampleStream;

/**
 * Who is on a port, found out by asking: opens it, asks for hello, and listens for a few seconds (a
 * board that restarts when its port is opened needs up to three).
 *
 * @param hello what the device said of itself
 * @param readings readings seen without a hello
 * @param recognition what the columns of text were taken for
 * @param refused the first line of text that was refused for its form
 */
public record Introduction(
    Optional<Hello> hello,
    long readings,
    Optional<String> recognition,
    Optional<RefusedLine> refused) {
  private static final long WAIT_NANOS = TimeUnit.SECONDS.toNanos(4);
  private static final long ENOUGH_READINGS = 3;

  /**
   * Asks.
   *
   * @param time by which it waits
   * @throws snick.port.PortException if the port cannot be opened
   */
  public static Introduction of(Ports ports, PortAddress address, HostTime time)
      throws IOException {
    StreamDecoder decoder =
        StreamDecoder.of(Optional.empty(), new TextRule.FoundOut(), StreamDecoder.Start.MIDWAY);
    SampleStream stream = new SampleStream(new SampleRate(80), new IgnoredSamples());
    try (ByteLink link = ports.openLink(address)) {
      listen(link, decoder, stream, time);
    }
    boolean text = decoder.recognised().equals(Optional.of(Form.TEXT));
    return new Introduction(
        stream.hello(),
        text ? stream.facts().samples() : 0,
        decoder.recognition(),
        decoder.refused());
  }

  private static void listen(
      ByteLink link, StreamDecoder decoder, SampleStream stream, HostTime time) throws IOException {
    byte[] buffer = new byte[4096];
    HelloRequests requests = new HelloRequests(time);
    long begin = time.monotonicNanos();
    while (time.monotonicNanos() - begin < WAIT_NANOS && !known(decoder, stream)) {
      requests.askIfDue(link);
      int count = link.read(buffer);
      decoder.accept(buffer, 0, count, stream);
    }
  }

  private static boolean known(StreamDecoder decoder, SampleStream stream) {
    boolean text = decoder.recognised().equals(Optional.of(Form.TEXT));
    return stream.hello().isPresent() || (text && stream.facts().samples() >= ENOUGH_READINGS);
  }

  /** For people. */
  public String words() {
    if (hello.isPresent()) {
      Hello h = hello.get();
      return "rig %s, %s, protocol %s, gain %s"
          .formatted(h.deviceIdText(), h.firmware(), h.protocolVersion(), h.gain());
    }
    String found =
        recognition
            .or(() -> refused.filter(line -> readings == 0).map(RefusedLine::words))
            .map(words -> ": " + words)
            .orElse("");
    return (readings > 0 ? "sends readings as text" : "nothing that is understood") + found;
  }
}
