package snick.virtualrig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.net.Socket;
import java.net.URI;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import snick.frame.binary.HostFrames;
import snick.frame.message.HostCommand;
import snick.frame.message.MessageType;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.line.HandClock;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.line.Sent;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.RigSettings;

/** A rig on a loopback TCP port: threads, pacing, requests. */
@Timeout(20)
class ServedRigTest {
  private final HandClock clock = new HandClock();
  private final List<TrueCut> truths = Collections.synchronizedList(new ArrayList<>());
  private final Heard host = new Heard();

  private ServedRig serve(Pacer pacer, VirtualRig.WhenFull whenFull) throws IOException {
    return new VirtualRig(RigSettings.USUAL, 3).serveOnTcp(0, pacer, whenFull, truths::add);
  }

  private static Socket connect(ServedRig rig) throws IOException {
    URI uri = URI.create(rig.port());
    Socket socket = new Socket(uri.getHost(), uri.getPort());
    socket.setSoTimeout(5_000);
    return socket;
  }

  /** The device answers, so it knows that somebody reads: from here on nothing goes unheard. */
  private Socket greet(ServedRig rig) throws IOException {
    Socket socket = connect(rig);
    int before = host.hellos.size();
    socket
        .getOutputStream()
        .write(new HostFrames().encode(new HostCommand(MessageType.ASK_HELLO, 1, 0)));
    readUntil(socket.getInputStream(), () -> host.hellos.size() > before);
    return socket;
  }

  private boolean heardAllBut(Sent sent) {
    return host.counts.size() == sent.samples() - sent.droppedSamples();
  }

  private void readUntil(InputStream in, BooleanSupplier enough) throws IOException {
    byte[] buffer = new byte[512];
    while (!enough.getAsBoolean()) {
      int length = in.read(buffer);
      assertThat(length).as("bytes from the rig").isPositive();
      host.arrive(0, buffer, length);
    }
  }

  @Test
  void timeStandsStillUntilTheClockMoves() throws Exception {
    try (ServedRig rig = serve(Pacer.of(clock::nanos, 1), VirtualRig.WhenFull.WAIT);
        Socket socket = greet(rig)) {
      clock.advanceSeconds(1);
      readUntil(socket.getInputStream(), () -> host.counts.size() >= 75);
      assertThat(host.counts).as("80 conversions, 4 to settle, 1 waits").hasSize(75);
      clock.advanceSeconds(0.5);
      readUntil(socket.getInputStream(), () -> host.counts.size() >= 114);
      assertThat(host.counts).as("120 conversions, 4 to settle, 2 wait").hasSize(114);
    }
  }

  @Test
  void timeSpentWithoutAReaderIsNotMadeUpFor() throws Exception {
    try (ServedRig rig = serve(Pacer.of(clock::nanos, 1), VirtualRig.WhenFull.WAIT)) {
      clock.advanceSeconds(100);
      try (Socket socket = greet(rig)) {
        clock.advanceSeconds(1);
        readUntil(socket.getInputStream(), () -> host.counts.size() >= 72);
        assertThat(rig.sent().trueNanos()).isLessThanOrEqualTo(1_000_000_000L);
      }
    }
  }

  @Test
  void speedIsAMultipleOfTheClock() throws Exception {
    try (ServedRig rig = serve(Pacer.of(clock::nanos, 100), VirtualRig.WhenFull.WAIT);
        Socket socket = greet(rig)) {
      clock.advanceSeconds(0.1);
      readUntil(socket.getInputStream(), () -> host.counts.size() >= 795);
      assertThat(host.counts).as("800 conversions, 4 to settle, 1 waits").hasSize(795);
    }
  }

  @Test
  void playsAScriptAndTellsTheTruth() throws Exception {
    try (ServedRig rig = serve(Pacer.of(System::nanoTime, 1e6), VirtualRig.WhenFull.WAIT);
        Socket socket = connect(rig)) {
      CompletableFuture<Void> done =
          rig.perform(
              Script.of(new Action.Rest(1), Action.Cut.ofGramForce(120, 90), new Action.Rest(0.5)));
      readUntil(socket.getInputStream(), done::isDone);
      done.get(1, TimeUnit.SECONDS);
      assertThat(truths).hasSize(1);
      assertThat(rig.sent().samples()).isGreaterThan(200);
    }
  }

  @Test
  void waitsForASlowReaderAndLosesNothing() throws Exception {
    try (ServedRig rig = serve(Pacer.of(System::nanoTime, 1e6), VirtualRig.WhenFull.WAIT);
        Socket socket = connect(rig)) {
      CompletableFuture<Void> done = rig.perform(new Action.Rest(4_000));
      readUntil(socket.getInputStream(), done::isDone);
      assertThat(rig.sent().droppedSamples()).isZero();
      for (int i = 0; i < host.sequences.size(); i++) {
        assertThat(host.sequences.get(i)).isEqualTo(i);
      }
    }
  }

  @Test
  void dropsWholeFramesAndCountsThemWhenTheReaderStops() throws Exception {
    try (ServedRig rig = serve(Pacer.of(clock::nanos, 1), VirtualRig.WhenFull.DROP);
        Socket socket = greet(rig)) {
      clock.advanceSeconds(1);
      readUntil(socket.getInputStream(), () -> !host.counts.isEmpty());
      CompletableFuture<Void> done = rig.perform(new Action.Rest(4_000));
      clock.advanceSeconds(4_010);
      done.get(15, TimeUnit.SECONDS);
      assertThat(rig.sent().droppedSamples()).isPositive();
      readUntil(socket.getInputStream(), () -> heardAllBut(rig.sent()));
      assertThat(
              host.decoder.tally().thrownAway().badChecks()
                  + host.decoder.tally().thrownAway().malformed())
          .isZero();
    }
  }

  @Test
  void answersTheHost() throws Exception {
    try (ServedRig rig = serve(Pacer.of(clock::nanos, 1), VirtualRig.WhenFull.DROP);
        Socket socket = connect(rig)) {
      clock.advanceSeconds(0.1);
      socket
          .getOutputStream()
          .write(new HostFrames().encode(new HostCommand(MessageType.PING, 5, 77)));
      readUntil(socket.getInputStream(), () -> !host.answers.isEmpty());
      assertThat(host.answers.get(0).value()).isEqualTo(77);
    }
  }

  @Test
  void hangsUpAndComesBackUnderTheSameName() throws Exception {
    try (FaultyRig rig =
        FaultyRig.serveOnTcp(
            new VirtualRig(RigSettings.USUAL, 3),
            Pacer.of(clock::nanos, 1),
            VirtualRig.WhenFull.DROP,
            truths::add)) {
      try (Socket socket = greet(rig)) {
        clock.advanceSeconds(0.2);
        readUntil(socket.getInputStream(), () -> !host.counts.isEmpty());
        rig.inject(new Fault.HangUp(1));
        byte[] rest = socket.getInputStream().readAllBytes();
        assertThat(rest.length).isLessThan(200);
      }
      assertThatThrownBy(() -> connect(rig).close()).isInstanceOf(IOException.class);
      clock.advanceSeconds(1.1);
      try (Socket again = connectPatiently(rig)) {
        host.counts.clear();
        clock.advanceSeconds(1);
        readUntil(again.getInputStream(), () -> host.counts.size() >= 40);
      }
    }
  }

  private Socket connectPatiently(ServedRig rig) throws IOException {
    IOException last = new IOException("never tried");
    for (int i = 0; i < 100_000; i++) {
      try {
        return greet(rig);
      } catch (IOException refused) {
        last = refused;
        Thread.onSpinWait();
      }
    }
    throw last;
  }

  @Test
  void whatWasAskedOfARigThatEndsFails() throws Exception {
    ServedRig rig = serve(Pacer.of(clock::nanos, 1), VirtualRig.WhenFull.DROP);
    CompletableFuture<Void> done = rig.perform(new Action.Rest(10));
    rig.close();
    assertThatThrownBy(() -> done.get(5, TimeUnit.SECONDS)).hasMessageContaining("has ended");
    assertThatThrownBy(() -> rig.perform(new Action.Rest(1)).get(5, TimeUnit.SECONDS))
        .hasMessageContaining("has ended");
    assertThat(rig.ended().get(5, TimeUnit.SECONDS).droppedSamples()).isZero();
  }
}
