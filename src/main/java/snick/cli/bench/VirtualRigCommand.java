package snick.cli.bench;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snick.cli.option.VirtualFixture;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.FileReason;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.TypedCommand;
import snick.exchange.write.Atomically;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.KnifeScenario;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.RigSettings;
import snick.virtualrig.settings.TextForm;

/** Serves the virtual rig until stopped, or writes what it would send to a file. */
@Command(
    name = "virtual-rig",
    description = {
      "Serve a virtual rig on a pseudo-terminal, cutting an invented knife again and again; or write"
          + " what it would send to a file, as fast as this machine can."
    },
    footer = {
      "  snick virtual-rig --link /tmp/rig",
      "  snick run /tmp/rig --counts-per-gf 437.25     in another terminal",
      "  snick virtual-rig --link /tmp/rig --resonance 30Hz --damping 0.01",
      "  snick virtual-rig --write an-hour.txt --seconds 3600 --text"
    })
public final class VirtualRigCommand extends TypedCommand implements Callable<Integer> {
  private static final double LONGEST_SECONDS = 1e6;
  private static final double SCRIPT_SECONDS = 40;

  @ArgGroup(exclusive = true, multiplicity = "1")
  private Where where;

  /** Where the bytes go. */
  static final class Where {
    @Option(
        names = "--link",
        paramLabel = "PATH",
        description = "Link to make to the pseudo-terminal.")
    private Optional<Path> link;

    @Option(names = "--write", paramLabel = "FILE", description = "New file to write.")
    private Optional<Path> file;
  }

  @Option(
      names = "--seconds",
      paramLabel = "S",
      defaultValue = "60",
      description = "Rig time to write, about (default: ${DEFAULT-VALUE}).")
  private double seconds;

  @Option(
      names = "--speed",
      paramLabel = "N",
      defaultValue = "1",
      description = "Times real time, on a pseudo-terminal (default: ${DEFAULT-VALUE}).")
  private double speed;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "Seed of noise and tremor (default: ${DEFAULT-VALUE}).")
  private long seed;

  @Mixin private VirtualFixture fixture;

  @Option(names = "--rest", description = "Only rest: no cuts.")
  private boolean rest;

  @Option(names = "--text", description = "Lines 'micros,counts' instead of binary frames.")
  private boolean text;

  @Override
  public Integer call() throws InterruptedException {
    if (where.file.isPresent()) {
      write(where.file.get());
    } else {
      serve(where.link.orElseThrow());
    }
    return ExitCode.OK;
  }

  private VirtualRig rig() {
    RigSettings usual = fixture.settings();
    RigSettings settings =
        text ? usual.with(usual.device().withText(new TextForm(true, false, 0, false))) : usual;
    return new VirtualRig(settings, seed);
  }

  private void write(Path file) {
    if (!(seconds >= 1 && seconds <= LONGEST_SECONDS)) {
      throw Refusal.usage("--seconds " + seconds + " is outside 1 to 1000000");
    }
    try {
      Atomically.make(file, workshop -> render(workshop.resolve("whole")));
    } catch (FileAlreadyExistsException e) {
      throw Refusal.badInput(file + " is there already; give another name");
    } catch (IOException e) {
      throw Refusal.failed(file + " cannot be written: " + FileReason.of(e), e);
    }
  }

  private Path render(Path whole) throws IOException {
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(whole))) {
      rig().render(script(), (nanos, bytes, length) -> put(out, bytes, length), truth -> {});
      return whole;
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }

  private static void put(OutputStream out, byte[] bytes, int length) {
    try {
      out.write(bytes, 0, length);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private Script script() {
    List<Action> actions = new ArrayList<>();
    if (rest) {
      actions.add(new Action.Rest(seconds));
    } else {
      actions.add(new Action.Rest(2));
      for (double written = 0; written < seconds; written += SCRIPT_SECONDS) {
        KnifeScenario.stages().forEach(stage -> actions.addAll(stage.script().actions()));
      }
    }
    return new Script(actions);
  }

  private void serve(Path link) throws InterruptedException {
    CountDownLatch stop = new CountDownLatch(1);
    try (ServedRig served =
        rig()
            .serve(link, Pacer.of(System::nanoTime, speed), VirtualRig.WhenFull.DROP, this::tell)) {
      Runtime.getRuntime().addShutdownHook(new Thread(stop::countDown, "stop"));
      println("Virtual rig on " + served.port() + "; record from it: snick run " + served.port());
      out().flush();
      while (stop.getCount() > 0 && !rest) {
        cutAll(served);
      }
      stop.await();
    } catch (IllegalArgumentException e) {
      throw Refusal.usage(e.getMessage());
    } catch (IOException e) {
      throw Refusal.failed(
          "the virtual rig cannot be served at " + link + ": " + e.getMessage(), e);
    }
  }

  private static void cutAll(ServedRig served) {
    for (KnifeScenario.Stage stage : KnifeScenario.stages()) {
      served.perform(stage.script()).join();
    }
    served.perform(new Action.Rest(1)).join();
  }

  private void tell(TrueCut truth) {
    println("true " + Numbers.fixed(truth.breakForce().gramForce(), 1) + " gf");
    out().flush();
  }
}
