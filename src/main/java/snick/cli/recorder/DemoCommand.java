package snick.cli.recorder;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snick.cli.option.NamedStore;
import snick.cli.option.OpenedStore;
import snick.cli.option.VirtualFixture;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.OwnName;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.ShellWord;
import snick.cli.terminal.TypedCommand;
import snick.daemon.link.RigInUseException;
import snick.store.database.StoreException;
import snick.virtualrig.VirtualRig;

/** The main job without hardware: virtual rig, recorder, an invented knife in three stages. */
@Command(
    name = "demo",
    description = {
      "Show the main job on the built-in virtual rig: an invented kitchen knife as found, deburred and"
          + " stropped; true forces beside measured ones. Needs no hardware."
    },
    footer = {
      "  snick demo",
      "  snick demo --speed 10",
      "  snick demo --resonance 120Hz --damping 0.1",
      "  snick demo --data /tmp/my-demo"
    })
public final class DemoCommand extends TypedCommand implements Callable<Integer> {
  private static final List<String> NEXT =
      List.of(
          "snick cuts list",
          "snick cuts show 1",
          "snick progress --margin 6",
          "snick burr " + ShellWord.of("as found"));

  @Option(
      names = "--data",
      paramLabel = "DIR",
      description = "Where to put the store (default: a new folder among the temporary files).")
  private Path directory;

  @Option(
      names = "--speed",
      paramLabel = "N",
      defaultValue = "1.5",
      description = "Times real time, 0.1 to 100 (default: ${DEFAULT-VALUE}).")
  private double speed;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "Seed of noise and tremor (default: ${DEFAULT-VALUE}).")
  private long seed;

  @Mixin private VirtualFixture fixture;

  @Override
  public Integer call() throws InterruptedException {
    if (!(speed >= 0.1 && speed <= 100)) {
      throw Refusal.usage("--speed " + speed + " is outside 0.1 to 100");
    }
    PrintWriter out = out();
    Path work = folder();
    Path data = directory == null ? work : directory;
    try (DemoRun run =
        new DemoRun(
            work.resolve("rig"), data, speed, new VirtualRig(fixture.settings(), seed), out)) {
      run.play();
    } catch (RigInUseException | StoreException e) {
      throw Refusal.unavailable(e.getMessage());
    } catch (IOException e) {
      throw Refusal.failed("the virtual rig could not be served: " + e.getMessage(), e);
    }
    whatNext(out, data);
    return ExitCode.OK;
  }

  private static Path folder() {
    try {
      return Files.createTempDirectory("snick-demo-");
    } catch (IOException e) {
      throw Refusal.failed("no temporary folder can be made: " + e.getMessage(), e);
    }
  }

  private static void whatNext(PrintWriter out, Path data) {
    out.println();
    out.println("Stored in " + data.resolve(OpenedStore.FILE) + ". Next:");
    NamedStore store = new NamedStore(Optional.of(data));
    NEXT.forEach(command -> out.println("  " + store.in(command)));
    OwnName.explained().ifPresent(out::println);
    out.flush();
  }
}
