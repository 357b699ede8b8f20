package snick.cli.bench;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snick.cli.option.DataCommand;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;

/** Says whether the reading moves when the rig is pressed, and which way. */
@Command(
    name = "touch",
    description = {
      "Press the filament, or the cell, with something blunt: says whether the reading moves, which"
          + " way, and how it stands at rest. Exit status 3 if it does not move, 10 if it falls."
    },
    footer = {"  snick touch /dev/ttyACM0", "  snick touch --virtual", "", "No blade in the rig."})
public final class TouchCommand extends DataCommand implements Callable<Integer> {
  /** Exit status: it moves, and falls under load. */
  public static final int FALLS = 10;

  private static final long PATIENCE_NANOS = TimeUnit.SECONDS.toNanos(30);

  @Mixin private BenchRig rig;

  @Option(
      names = "--wait",
      paramLabel = "S",
      defaultValue = "30",
      description = "How long to wait for it to move, s (default: ${DEFAULT-VALUE}).")
  private int waitSeconds;

  private final TouchWatch watch = new TouchWatch();

  @Override
  public Integer call() {
    rig.keptIn(data);
    try (BenchFeed bench = BenchFeed.open(rig, 1)) {
      bench.to(watch);
      say("Hands off for a moment.");
      if (!until(bench, PATIENCE_NANOS, watch::restKnown)) {
        throw Refusal.unavailable(noRest());
      }
      watch.waitForMove();
      say(
          "At rest: "
              + Numbers.fixed(watch.meanCounts(), 0)
              + " counts, noise "
              + Numbers.fixed(watch.sdCounts(), 1)
              + " (SD). Now press the filament or the cell, for a second or two.");
      bench.touch();
      return verdict(until(bench, TimeUnit.SECONDS.toNanos(waitSeconds), watch::moved), bench);
    }
  }

  private int verdict(boolean moved, BenchFeed bench) {
    if (!moved) {
      say(
          "It does not move by "
              + Numbers.fixed(watch.farCounts(), 0)
              + " counts or more: is the cell connected, do excitation and signal wires go where they"
              + " should, is the column the reading (--columns)? If that is much, the rig was not at"
              + " rest at first: hands off, and again.");
      return ExitCode.NOT_PASSED;
    }
    until(bench, TimeUnit.SECONDS.toNanos(1), () -> false);
    boolean falls = watch.farthestCounts() < 0;
    say(
        "It moves by "
            + Numbers.fixed(Math.abs(watch.farthestCounts()), 0)
            + " counts: load "
            + (falls ? "lowers the reading (--polarity -1)." : "raises the reading."));
    return falls ? FALLS : ExitCode.OK;
  }

  private String noRest() {
    return watch.overrange() > 0
        ? "the reading stands at the end of the converter's range: a wire is open, or the code is"
            + " offset binary (--columns offset24)"
        : "too few readings came within 30 s; see: snick doctor PORT";
  }

  /** Reads until something is so, or time is over: whether it is. */
  private static boolean until(BenchFeed bench, long nanos, BooleanSupplier so) {
    long end = System.nanoTime() + nanos;
    boolean more = true;
    while (more && !so.getAsBoolean() && System.nanoTime() < end) {
      more = bench.turn();
    }
    return so.getAsBoolean();
  }

  private void say(String text) {
    PrintWriter out = out();
    out.println(PlainText.inert(text));
    out.flush();
  }
}
