package snick.cli;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import snick.cut.Cut;
import snick.cut.CutFigures;
import snick.cut.Outcome;
import snick.cut.Peak;
import snick.cut.Trace;
import snick.force.budget.Calibration;
import snick.quantity.Force;
import snick.quantity.SampleRate;
import snick.store.Store;
import snick.store.record.CutForce;
import snick.store.record.NewCut;
import snick.store.record.Recording;

/** A store into which cuts of invented forces come as from a rig, and commands run on it. */
public final class SessionStory {
  public static final String RIG = "00a1b2c3d4e5f607";

  private final Path data;
  private Calibration calibration = Calibration.countsPerGramForce(100, Instant.EPOCH);
  private int number;

  public SessionStory(Path data) {
    this.data = data;
  }

  /** Runs a command on this store. */
  public Ran run(String... arguments) {
    List<String> all = new ArrayList<>(Arrays.asList(arguments));
    all.add("--data");
    all.add(data.toString());
    return Ran.command(all.toArray(String[]::new));
  }

  /** Cuts from now on are measured by another calibration. */
  public void calibrate(double countsPerGramForce) {
    calibration = Calibration.countsPerGramForce(countsPerGramForce, Instant.EPOCH);
  }

  /** Cuts land as they do when recorded: in the running stage, if there is one. */
  public void cuts(double... gramForce) {
    try (Store store = Store.open(data, Clock.systemUTC())) {
      store.add(calibration, Optional.empty());
      long recording =
          store.startRecording(
              new Recording(
                  RIG,
                  "invented",
                  "/dev/ttyUSB0",
                  Recording.Form.BINARY,
                  Instant.now(),
                  OptionalInt.empty(),
                  Optional.of(new SampleRate(80)),
                  0));
      for (double force : gramForce) {
        store.append(cut(recording, force));
      }
    }
  }

  private NewCut cut(long recording, double gramForce) {
    Cut cut =
        new Cut(
            ++number,
            new CutFigures(
                Outcome.SEVERED,
                1,
                0,
                OptionalLong.of(Duration.ofSeconds(1).toNanos()),
                Optional.of(new Peak(100 * gramForce, 100 * gramForce, 10)),
                new CutFigures.Shape(10_000, 1_000_000, 0, 80),
                new CutFigures.Rest(0, 0, 10),
                Set.of()),
            Trace.none());
    CutForce force =
        new CutForce(calibration.derive(100 * gramForce, 10), Force.ofGramForce(gramForce));
    return NewCut.of(recording, Instant.now(), cut)
        .with(force)
        .inRunningStage(OptionalDouble.empty());
  }
}
