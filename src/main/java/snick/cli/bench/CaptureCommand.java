package snick.cli.bench;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.StreamChoice;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.FileReason;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Progress;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Terminal;
import snick.cli.terminal.TypedCommand;
import snick.daemon.link.HelloRequests;
import snick.daemon.link.HostTime;
import snick.frame.StreamDecoder;
import snick.frame.text.RefusedLine;
import snick.port.ByteLink;
import snick.port.CaptureWriter;
import snick.port.LinkLostException;
import snick.port.PortAddress;
import snick.port.Ports;
import snick.quantity.SampleRate;
import snick.sample.IgnoredSamples;
import snick.sample.SampleStream;

/** Writes a rig's raw bytes with their arrival times. */
@Command(
    name = "capture",
    description = "Write a rig's raw bytes with their arrival times to a new file, until stopped.",
    footer = {
      "  snick capture /dev/ttyACM0 session.capture",
      "  snick capture /dev/ttyACM0 minute.capture --seconds 60",
      "  snick analyze session.capture     finds the cuts in it"
    })
public final class CaptureCommand extends TypedCommand implements Callable<Integer> {
  private static final long LONGEST_WAIT_SECONDS = 2;

  @Parameters(
      paramLabel = "PORT",
      description = "Serial device, part of its name, or tcp://HOST:PORT.")
  private String port;

  @Parameters(paramLabel = "FILE", description = "New file to write.")
  private Path file;

  @Option(names = "--seconds", paramLabel = "S", description = "Stop after so many seconds.")
  private Optional<Integer> seconds;

  @Option(
      names = "--baud",
      paramLabel = "N",
      defaultValue = "115200",
      description = "Bits per second of a serial port (default: ${DEFAULT-VALUE}).")
  private int bitsPerSecond;

  @Mixin private StreamChoice streamChoice;

  private final CountDownLatch over = new CountDownLatch(1);
  private volatile boolean stopping;
  private final SampleStream stream = new SampleStream(new SampleRate(80), new IgnoredSamples());
  private StreamDecoder decoder;
  private long bytes;

  @Override
  public Integer call() throws InterruptedException {
    PortAddress address = PortAddress.parse(port);
    decoder = streamChoice.settings().decoder(StreamDecoder.Start.MIDWAY);
    if (!address.live()) {
      throw Refusal.usage(port + " is a file already; capture reads from a rig");
    }
    Runtime.getRuntime().addShutdownHook(new Thread(this::stopAndWait, "stop"));
    try (ByteLink link = new Ports(bitsPerSecond).openLink(address);
        CaptureWriter writer = CaptureWriter.create(file, Clock.systemUTC().instant(), port)) {
      copy(link, writer);
    } catch (FileAlreadyExistsException e) {
      throw Refusal.badInput(file + " is there already; a capture never writes over a file");
    } catch (FileSystemException e) {
      throw Refusal.failed(file + " cannot be written: " + FileReason.of(e), e);
    } catch (IOException e) {
      throw Refusal.unavailable(e.getMessage());
    } finally {
      over.countDown();
    }
    PrintWriter out = out();
    out.println(bytes + " bytes in " + file + ". Find the cuts: snick analyze " + file);
    understood().ifPresent(words -> out.println(PlainText.inert(words)));
    out.flush();
    return ExitCode.OK;
  }

  /** What was made out in what came; the file holds all bytes either way. */
  private Optional<String> understood() {
    decoder.end(stream);
    return stream.facts().samples() > 0
        ? decoder.recognition()
        : decoder.refused().map(RefusedLine::words);
  }

  private void stopAndWait() {
    stopping = true;
    try {
      if (!over.await(LONGEST_WAIT_SECONDS, TimeUnit.SECONDS)) {
        err().println("snick: " + port + " hangs; ended all the same");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void keep(CaptureWriter writer, long arrivalNanos, byte[] buffer, int count) {
    try {
      writer.append(arrivalNanos, buffer, count);
      writer.flush();
      bytes += count;
      decoder.accept(buffer, 0, count, stream);
    } catch (IOException e) {
      throw Refusal.failed(
          ("%s cannot be written any more: %s; the %s bytes before are kept; free some space and"
                  + " capture to another file")
              .formatted(file, e.getMessage(), bytes),
          e);
    }
  }

  private void copy(ByteLink link, CaptureWriter writer) throws IOException {
    byte[] buffer = new byte[1 << 16];
    long begin = System.nanoTime();
    long limitNanos = seconds.map(s -> TimeUnit.SECONDS.toNanos(s)).orElse(Long.MAX_VALUE);
    Progress progress = new Progress(err(), Terminal.watchesErrors(), 0);
    new HelloRequests(HostTime.REAL).askIfDue(link);
    try {
      while (!stopping && System.nanoTime() - begin < limitNanos) {
        int count = link.read(buffer);
        if (count > 0) {
          keep(writer, link.arrivalNanos() - begin, buffer, count);
        }
        progress.at(bytes, 0);
      }
    } catch (LinkLostException e) {
      err().println("snick: " + e.getMessage() + "; what came before is kept");
    }
    progress.done();
  }
}
