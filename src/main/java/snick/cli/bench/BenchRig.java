package snick.cli.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Consumer;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedStore;
import snick.cli.option.Setting;
import snick.cli.option.Settings;
import snick.cli.option.StreamChoice;
import snick.cli.option.VirtualFixture;
import snick.cli.terminal.FileReason;
import snick.cli.terminal.Refusal;
import snick.daemon.LiveFeed;
import snick.daemon.link.HostTime;
import snick.daemon.link.RigInUseException;
import snick.frame.text.Columns;
import snick.port.PortAddress;
import snick.port.PortException;
import snick.port.Ports;
import snick.sample.SampleSink;
import snick.store.KeptColumns;
import snick.store.StoreReader;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.settings.RigSettings;

/** The rig that a command at the bench works with: a port, or the virtual rig. */
public final class BenchRig {
  @Parameters(
      paramLabel = "PORT",
      arity = "0..1",
      description = "Serial device, part of a port's name, or tcp://HOST:PORT.")
  private Optional<String> port;

  @Option(
      names = "--virtual",
      description = "Work on the built-in virtual rig; a virtual operator does what is asked.")
  private boolean virtual;

  @Option(
      names = "--speed",
      paramLabel = "N",
      defaultValue = "50",
      description = "Speed of the virtual rig, times real time (default: ${DEFAULT-VALUE}).")
  private double speed;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "Seed of the virtual rig's noise (default: ${DEFAULT-VALUE}).")
  private long seed;

  @Mixin private VirtualFixture fixture;

  @Option(
      names = "--baud",
      paramLabel = "N",
      defaultValue = "115200",
      description = "Bits per second of serial ports (default: ${DEFAULT-VALUE}).")
  private int bitsPerSecond;

  @Mixin private StreamChoice streamChoice;

  @Spec(Spec.Target.MIXEE)
  private CommandSpec command;

  private Optional<DataDirectory> data = Optional.empty();

  /** Whether it is the virtual one. */
  public boolean isVirtual() {
    return virtual;
  }

  /** The port as typed, else as set; none beside the virtual rig. */
  Optional<String> port() {
    return virtual ? port : port.or(() -> Settings.of(command).get(Setting.RIG));
  }

  /** Refuses unless exactly one rig was named. */
  public void requireNamed() {
    if (virtual == port().isPresent()) {
      throw Refusal.usage("name a PORT (list them: snick ports), or try --virtual");
    }
  }

  /** What the virtual rig is like. */
  public RigSettings virtualSettings() {
    return fixture.settings();
  }

  /** The virtual rig, started; {@code truths} are told on its own thread. */
  ServedRig serve(Consumer<TrueCut> truths) {
    RigSettings settings = virtualSettings();
    try {
      Path folder = Files.createTempDirectory("snick-rig-");
      return new VirtualRig(settings, seed)
          .serve(
              folder.resolve("rig"),
              Pacer.of(System::nanoTime, speed),
              VirtualRig.WhenFull.WAIT,
              truths);
    } catch (IllegalArgumentException e) {
      throw Refusal.usage("--speed: " + e.getMessage());
    } catch (IOException e) {
      throw Refusal.failed("the virtual rig cannot be served: " + e.getMessage(), e);
    }
  }

  /** Text is read in the columns that are kept in this store, if it is there. */
  public void keptIn(DataDirectory store) {
    data = Optional.of(store);
  }

  private Optional<Columns> kept(String address) {
    if (data.isEmpty() || !Files.exists(data.get().path().resolve(OpenedStore.FILE))) {
      return Optional.empty();
    }
    try (StoreReader reader = OpenedStore.toRead(data.get())) {
      return KeptColumns.of(reader, address);
    }
  }

  /** Samples of the rig on {@code address} to {@code sink}. */
  LiveFeed open(String address, SampleSink sink) {
    try {
      return new LiveFeed(
          new Ports(bitsPerSecond),
          PortAddress.parse(address),
          DataDirectory.runtime(),
          streamChoice.settings().withKept(kept(address)),
          sink,
          HostTime.REAL);
    } catch (IllegalArgumentException e) {
      throw Refusal.usage(e.getMessage());
    } catch (RigInUseException | PortException e) {
      throw Refusal.unavailable(e.getMessage());
    } catch (IOException e) {
      throw Refusal.unavailable(address + " cannot be opened: " + FileReason.of(e));
    }
  }
}
