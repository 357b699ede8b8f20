package snick.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import snick.virtualrig.Action;
import snick.virtualrig.KnifeScenario;
import snick.virtualrig.Pacer;
import snick.virtualrig.RigSettings;
import snick.virtualrig.ServedRig;
import snick.virtualrig.TrueCut;
import snick.virtualrig.VirtualRig;

/** Serves the virtual rig until stopped. */
@Command(
    name = "virtual-rig",
    mixinStandardHelpOptions = true,
    description = "Serve a virtual rig on a pseudo-terminal, cutting an invented knife again and again.",
    footerHeading = "%nExamples:%n",
    footer = {
      "  snick virtual-rig --link /tmp/rig",
      "  snick run /tmp/rig --counts-per-gf 437.25     in another terminal"
    })
final class VirtualRigCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Option(
      names = "--link",
      paramLabel = "PATH",
      required = true,
      description = "Link to make to the pseudo-terminal.")
  private Path link;

  @Option(
      names = "--speed",
      paramLabel = "N",
      defaultValue = "1",
      description = "Times real time (default: ${DEFAULT-VALUE}).")
  private double speed;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "Seed of noise and tremor (default: ${DEFAULT-VALUE}).")
  private long seed;

  @Option(names = "--rest", description = "Only rest: no cuts.")
  private boolean rest;

  @Override
  public Integer call() throws InterruptedException {
    CountDownLatch stop = new CountDownLatch(1);
    try (ServedRig rig = serve()) {
      Runtime.getRuntime().addShutdownHook(new Thread(stop::countDown, "stop"));
      out().println("Virtual rig on " + rig.port() + "; record from it: snick run " + rig.port());
      out().flush();
      while (stop.getCount() > 0 && !rest) {
        cutAll(rig);
      }
      stop.await();
    }
    return ExitCode.OK;
  }

  private ServedRig serve() {
    try {
      return new VirtualRig(RigSettings.USUAL, seed)
          .serve(
              link, Pacer.of(System::nanoTime, speed), VirtualRig.WhenFull.DROP, this::tell);
    } catch (IllegalArgumentException e) {
      throw Refusal.usage(e.getMessage());
    } catch (IOException e) {
      throw Refusal.failed("the virtual rig cannot be served at " + link + ": " + e.getMessage(), e);
    }
  }

  private static void cutAll(ServedRig rig) {
    for (KnifeScenario.Stage stage : KnifeScenario.stages()) {
      rig.perform(stage.script()).join();
    }
    rig.perform(new Action.Rest(1)).join();
  }

  private void tell(TrueCut truth) {
    out().println("true " + Numbers.fixed(truth.breakForce().gramForce(), 1) + " gf");
    out().flush();
  }

  private PrintWriter out() {
    return spec.commandLine().getOut();
  }
}
