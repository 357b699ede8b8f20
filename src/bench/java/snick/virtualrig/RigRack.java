package snick.virtualrig;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.atomic.AtomicLong;
import snick.quantity.SampleRate;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.line.PseudoTerminal;
import snick.virtualrig.line.Sent;
import snick.virtualrig.settings.Altered;
import snick.virtualrig.settings.RigSettings;

/**
 * Several virtual rigs in one process of their own, each on a pseudo-terminal {@code rig-0}, {@code
 * rig-1} … in a folder, so that a recorder can be weighed without them. Arguments: the folder,
 * number of rigs, samples a second, times real time, seconds from cut to cut, number of cuts of
 * each rig.
 *
 * <p>Each follows {@link LongScript#counted}, without a sample for its first {@value
 * #QUIET_WALL_SECONDS} s by the clock on the wall. Prints {@code ready}, {@code done} after the
 * last cut of all, and for each line on standard input a line for each rig: samples numbered, of
 * these dropped by the device, cuts made. Ends with standard input.
 */
final class RigRack {
  private static final int QUIET_WALL_SECONDS = 6;

  private final List<FaultyRig> rigs = new ArrayList<>();
  private final List<AtomicLong> cuts = new ArrayList<>();

  private RigRack() {}

  public static void main(String[] args) throws IOException, InterruptedException {
    RigRack rack = new RigRack();
    double speed = Double.parseDouble(args[3]);
    double everySeconds = Double.parseDouble(args[4]);
    for (int i = 0; i < Integer.parseInt(args[1]); i++) {
      rack.add(Path.of(args[0], "rig-" + i), i, Double.parseDouble(args[2]), speed);
    }
    System.out.println("ready");
    FaultyScript script =
        LongScript.counted(QUIET_WALL_SECONDS * speed, everySeconds, Integer.parseInt(args[5]));
    Thread answering = new Thread(rack::answer, "answering");
    answering.start();
    CompletableFuture.allOf(
            rack.rigs.stream().map(rig -> rig.perform(script)).toArray(CompletableFuture[]::new))
        .join();
    System.out.println("done");
    answering.join();
    rack.rigs.forEach(ServedRig::close);
  }

  private void add(Path link, int number, double ratePerSecond, double speed) throws IOException {
    RigSettings usual = RigSettings.USUAL;
    RigSettings settings =
        usual
            .with(usual.converter().withRate(new SampleRate(ratePerSecond)))
            .with(Altered.withDeviceId(usual.device(), usual.device().deviceId() + number));
    AtomicLong made = new AtomicLong();
    cuts.add(made);
    rigs.add(
        FaultyRig.serve(
            new VirtualRig(settings, number + 1),
            PseudoTerminal.publishedAs(link),
            Pacer.of(System::nanoTime, speed),
            VirtualRig.WhenFull.WAIT,
            truth -> made.incrementAndGet()));
  }

  private void answer() {
    new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8))
        .lines()
        .forEach(line -> tell());
  }

  private void tell() {
    for (int i = 0; i < rigs.size(); i++) {
      Sent sent = rigs.get(i).sent();
      System.out.println(sent.samples() + " " + sent.droppedSamples() + " " + cuts.get(i).get());
    }
    System.out.println();
  }
}
