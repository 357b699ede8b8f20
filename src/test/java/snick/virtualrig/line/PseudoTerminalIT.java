package snick.virtualrig.line;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fazecast.jSerialComm.SerialPort;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import snick.frame.binary.HostFrames;
import snick.frame.message.HostCommand;
import snick.frame.message.MessageType;
import snick.virtualrig.Fault;
import snick.virtualrig.FaultyRig;
import snick.virtualrig.Heard;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.settings.RigSettings;

/** A real pseudo-terminal, opened by the library that the recorder uses. */
@EnabledOnOs({OS.LINUX, OS.MAC})
@Timeout(30)
class PseudoTerminalIT {
  private static final int UNPLUGGED = -1;

  @TempDir private Path folder;

  private Path link() {
    return folder.resolve("rig");
  }

  private SerialPort open() {
    SerialPort port = SerialPort.getCommPort(link().toString());
    port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, 100, 0);
    assertThat(port.openPort(0)).as("open %s", link()).isTrue();
    return port;
  }

  private static byte[] everyByte() {
    byte[] bytes = new byte[512];
    for (int i = 0; i < bytes.length; i++) {
      bytes[i] = (byte) i;
    }
    return bytes;
  }

  private static byte[] read(SerialPort port, int length) {
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    byte[] buffer = new byte[256];
    while (all.size() < length) {
      int read = port.readBytes(buffer, buffer.length);
      assertThat(read).as("bytes read").isNotNegative();
      all.write(buffer, 0, read);
    }
    return all.toByteArray();
  }

  private static byte[] take(Link line, int length) throws IOException {
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    byte[] buffer = new byte[256];
    while (all.size() < length) {
      line.await(100_000_000);
      all.write(buffer, 0, line.read(buffer));
    }
    return all.toByteArray();
  }

  @Test
  void everyByteGoesBothWaysUnchanged() throws IOException {
    PseudoTerminal line = PseudoTerminal.publishedAs(link());
    SerialPort port = open();
    try {
      assertThat(line.write(everyByte(), 512)).isEqualTo(512);
      assertThat(read(port, 512)).isEqualTo(everyByte());
      assertThat(port.writeBytes(everyByte(), 512)).isEqualTo(512);
      assertThat(take(line, 512)).isEqualTo(everyByte());
    } finally {
      port.closePort();
      line.hangUp();
    }
  }

  @Test
  void knowsWhetherSomebodyReads() throws IOException {
    PseudoTerminal line = PseudoTerminal.publishedAs(link());
    assertThat(line.hasReader()).isFalse();
    SerialPort port = open();
    assertThat(line.hasReader()).isTrue();
    port.closePort();
    assertThat(line.hasReader()).isFalse();
    line.hangUp();
  }

  @Test
  void aReaderThatStopsFillsTheLineButNeverBlocksIt() throws IOException {
    PseudoTerminal line = PseudoTerminal.publishedAs(link());
    SerialPort port = open();
    long taken = 0;
    int last = 1;
    for (int i = 0; i < 10_000 && last > 0; i++) {
      last = line.write(everyByte(), 512);
      taken += last;
    }
    assertThat(last).isZero();
    assertThat(taken).isBetween(1_000L, 200_000L);
    port.closePort();
    line.hangUp();
  }

  @Test
  void whatAReaderLeftBehindIsGoneForTheNext() throws IOException {
    PseudoTerminal line = PseudoTerminal.publishedAs(link());
    SerialPort first = open();
    assertThat(line.hasReader()).isTrue();
    assertThat(line.write(everyByte(), 512)).isEqualTo(512);
    first.closePort();
    assertThat(line.hasReader()).isFalse();
    SerialPort second = open();
    assertThat(line.write(new byte[] {42}, 1)).isEqualTo(1);
    assertThat(read(second, 1)).containsExactly(42);
    second.closePort();
    line.hangUp();
  }

  @Test
  void hangUpIsUnplugging() throws Exception {
    PseudoTerminal line = PseudoTerminal.publishedAs(link());
    SerialPort port = open();
    CompletableFuture<Integer> blocked =
        CompletableFuture.supplyAsync(
            () -> {
              int read = 0;
              while (read == 0) {
                read = port.readBytes(new byte[16], 16);
              }
              return read;
            });
    line.hangUp();
    assertThat(blocked.get(5, TimeUnit.SECONDS)).isEqualTo(UNPLUGGED);
    assertThat(Files.isSymbolicLink(link())).isFalse();
    port.closePort();
  }

  @Test
  void comesBackUnderTheSameLink() throws IOException {
    PseudoTerminal line = PseudoTerminal.publishedAs(link());
    line.hangUp();
    line.publish();
    assertThat(Files.readSymbolicLink(link())).isEqualTo(Path.of(line.terminal()));
    SerialPort port = open();
    assertThat(line.write(everyByte(), 512)).isEqualTo(512);
    assertThat(read(port, 512)).isEqualTo(everyByte());
    port.closePort();
    line.hangUp();
  }

  @Test
  void refusesToReplaceAFile() throws IOException {
    Files.writeString(link(), "mine");
    assertThatThrownBy(() -> PseudoTerminal.publishedAs(link()))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("no symbolic link");
    assertThat(link()).hasContent("mine");
  }

  private static void listen(SerialPort port, Heard host, BooleanSupplier enough) {
    byte[] buffer = new byte[4096];
    while (!enough.getAsBoolean()) {
      int read = port.readBytes(buffer, buffer.length);
      assertThat(read).as("bytes read").isNotNegative();
      host.arrive(0, Arrays.copyOf(buffer, read), read);
    }
  }

  /** The device answers, so it knows that somebody reads: from here on nothing goes unheard. */
  private static void greet(SerialPort port, Heard host) {
    int before = host.answers.size();
    byte[] ping = new HostFrames().encode(new HostCommand(MessageType.PING, 1, 99));
    port.writeBytes(ping, ping.length);
    listen(port, host, () -> host.answers.size() > before);
  }

  @Test
  void rigLivesOnItUnpluggedAndPluggedInAgain() throws Exception {
    HandClock clock = new HandClock();
    Heard host = new Heard();
    VirtualRig rig = new VirtualRig(RigSettings.USUAL, 2);
    try (FaultyRig served =
        FaultyRig.serve(
            rig,
            PseudoTerminal.publishedAs(link()),
            Pacer.of(clock::nanos, 1),
            VirtualRig.WhenFull.WAIT,
            cut -> {})) {
      SerialPort port = open();
      greet(port, host);
      clock.advanceSeconds(2);
      listen(port, host, () -> host.counts.size() == 156);
      served.inject(new Fault.HangUp(1));
      int read = 0;
      while (read >= 0) {
        read = port.readBytes(new byte[64], 64);
      }
      port.closePort();
      clock.advanceSeconds(1.5);
      while (!Files.exists(link())) {
        Thread.onSpinWait();
      }
      SerialPort again = open();
      greet(again, host);
      host.counts.clear();
      clock.advanceSeconds(2);
      listen(again, host, () -> host.counts.size() >= 150);
      again.closePort();
    }
    assertThat(Files.isSymbolicLink(link())).isFalse();
  }
}
