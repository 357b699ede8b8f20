package snick.faults;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import snick.cli.Ran;
import snick.cut.Cut;
import snick.cut.Rederivation;
import snick.quantity.SampleRate;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.store.record.StoredCut;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.Altered;
import snick.virtualrig.settings.RigSettings;

/**
 * {@code kill -9} of a recorder on two virtual rigs at 320 samples/s whose cuts follow each other
 * after 0.35 to 0.8 s, again and again into one store. Arguments: number of kills, seed. Counts
 * announced cuts that are not in the store as they were announced; at the end how many are derived
 * again to the last digit, what {@code store check} says, and whether the own export is taken in
 * whole.
 */
public final class QuickCutKills {
  private static final int RIGS = 2;
  private static final double RATE_HERTZ = 320;
  private static final int CUTS_READY = 20_000;
  private static final int LONGEST_START_MILLIS = 3_000;
  private static final int LONGEST_AT_WORK_MILLIS = 2_000;

  private final Path folder;
  private final SplittableRandom random;
  private final List<ServedRig> rigs = new ArrayList<>();
  private final Map<Long, Map<String, Object>> announced = new LinkedHashMap<>();
  private int differ;
  private int refused;

  private QuickCutKills(Path folder, long seed) throws IOException {
    this.folder = folder;
    this.random = new SplittableRandom(seed);
    for (int i = 0; i < RIGS; i++) {
      rigs.add(rig(i));
    }
  }

  /** See the class; exits with 1 if a cut is lost or differs, or its export is refused. */
  public static void main(String[] args) throws Exception {
    int kills = Integer.parseInt(args[0]);
    QuickCutKills trial =
        new QuickCutKills(Files.createTempDirectory("kills"), Long.parseLong(args[1]));
    for (int kill = 1; kill <= kills; kill++) {
      trial.kill();
      if (kill % 25 == 0 || kill == kills) {
        System.out.println(
            kill + " kills, " + trial.announced.size() + " announced, " + trial.lost() + " lost");
      }
    }
    trial.rigs.forEach(ServedRig::close);
    trial.conclude();
    System.exit(trial.lost() == 0 && trial.differ == 0 && trial.refused == 0 ? 0 : 1);
  }

  private ServedRig rig(int number) throws IOException {
    RigSettings usual = RigSettings.USUAL;
    ServedRig rig =
        new VirtualRig(
                usual
                    .with(usual.converter().withRate(new SampleRate(RATE_HERTZ)))
                    .with(Altered.withDeviceId(usual.device(), usual.device().deviceId() + number)),
                number + 1)
            .serve(
                folder.resolve("rig-" + number),
                Pacer.of(System::nanoTime, 1),
                VirtualRig.WhenFull.DROP,
                truth -> {});
    List<Action> actions = IntStream.range(0, CUTS_READY).boxed().flatMap(i -> quick()).toList();
    if (rig.perform(new Script(actions)).isDone()) {
      throw new IllegalStateException("rig " + number + " cuts nothing");
    }
    return rig;
  }

  private Stream<Action> quick() {
    return Stream.of(
        new Action.Rest(random.nextDouble(0.35, 0.8)),
        Action.Cut.ofGramForce(random.nextDouble(60, 120), 300));
  }

  private Path data() {
    return folder.resolve("data");
  }

  private void kill() throws Exception {
    List<String> line = new ArrayList<>(List.of("run"));
    rigs.forEach(rig -> line.add(rig.port()));
    line.addAll(List.of("--no-http", "--json", "--counts-per-gf", "437.25"));
    line.addAll(List.of("--data", data().toString()));
    Running run = Running.snick(folder, line.toArray(String[]::new));
    if (random.nextInt(5) == 0) {
      Instants.pass(random.nextInt(LONGEST_START_MILLIS));
    } else {
      awaitCut(run);
      Instants.pass(random.nextInt(LONGEST_AT_WORK_MILLIS));
    }
    run.kill();
    for (String said : run.lines()) {
      if (said.startsWith("{")) {
        Map<String, Object> cut = JSON.std.mapFrom(said);
        announced.put(((Number) cut.get("id")).longValue(), cut);
      }
    }
  }

  /** On a machine that is too busy it is killed without one. */
  private static void awaitCut(Running run) throws InterruptedException {
    try {
      run.awaitCut(1);
    } catch (AssertionError noneInTime) {
      System.out.println("no cut within a minute");
    }
  }

  private long lost() {
    if (announced.isEmpty()) {
      return 0;
    }
    try (StoreReader reader = StoreReader.open(data())) {
      return announced.entrySet().stream()
          .filter(cut -> !asAnnounced(reader.cut(cut.getKey()), cut.getValue()))
          .count();
    }
  }

  private static boolean asAnnounced(Optional<StoredCut> stored, Map<String, Object> cut) {
    return stored.isPresent()
        && stored.get().cut().outcome().word().equals(cut.get("outcome"))
        && stored
            .get()
            .cut()
            .peak()
            .map(p -> p.estimateCounts())
            .equals(Optional.ofNullable(cut.get("estimate_counts")));
  }

  private void conclude() {
    int[] cuts = {0, 0};
    Rederivation again = new Rederivation();
    try (StoreReader reader = StoreReader.open(data())) {
      reader.forEachCut(
          CutSelection.all(),
          stored -> {
            cuts[0]++;
            Cut cut = stored.cut();
            cuts[1] +=
                again.of(cut).filter(c -> c.figures().equals(cut.figures())).isPresent() ? 1 : 0;
          });
    }
    differ = cuts[0] - cuts[1];
    System.out.println(cuts[0] + " cuts stored, " + cuts[1] + " derived again to the last digit");
    told("store check --data " + data());
    Path zip = folder.resolve("all.zip");
    told("export " + zip + " --data " + data());
    told("import " + zip + " --data " + folder.resolve("other"));
  }

  private void told(String line) {
    Ran ran = Ran.command(line.split(" ", 0));
    refused += ran.exit();
    System.out.println("snick " + line + ": exit status " + ran.exit());
    System.out.println(ran.out().lines().limit(12).toList() + " " + ran.err().strip());
  }
}
