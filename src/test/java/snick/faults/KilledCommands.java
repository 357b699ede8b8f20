package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.SplittableRandom;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import snick.report.sheet.UnfinishedSheet;
import snick.store.OlderStore;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.database.Watch;
import snick.store.record.CutSelection;
import snick.virtualrig.script.Action;
import snick.virtualrig.settings.TextForm;

/** Commands that change something, killed at a random instant of their run. */
final class KilledCommands {
  private static final int STORED_CUTS = 1500;
  private static final Pattern CALIBRATION = Pattern.compile("\"id\":\"(cal-[^\"]+)\"");

  private final Path folder;
  private int round;

  KilledCommands(Path folder) {
    this.folder = folder;
  }

  /** Starts a command and kills it, most often in the second half of its usual time. */
  private List<String> killed(SplittableRandom random, long usualMillis, String... arguments)
      throws Exception {
    round++;
    try (Running command = Running.snick(folder, arguments)) {
      long least = usualMillis / 3;
      command.endsWithin(least + random.nextLong(usualMillis - least + usualMillis / 10));
      command.kill();
      return command.lines();
    }
  }

  /** How long a command takes here and now when it is left alone, ms. */
  private long millis(String... arguments) throws Exception {
    long begin = System.nanoTime();
    try (Running command = Running.snick(folder, arguments)) {
      assertThat(command.over()).as(command.lines().toString()).isZero();
    }
    return Math.max(1, (System.nanoTime() - begin) / 1_000_000);
  }

  private String data() {
    return folder.resolve("data").toString();
  }

  /** A guided calibration on the virtual rig, and a line that is typed in. */
  Victim calibration() throws Exception {
    String[] guided = {
      "calibrate",
      "--virtual",
      "--speed",
      "1000",
      "--runs",
      "3",
      "--rising-only",
      "--hold",
      "0",
      "--mass",
      "100g:M1",
      "--mass",
      "200g:M1",
      "--mass",
      "500g:M1",
      "--fresh",
      "--json",
      "--data",
      data()
    };
    String[] line = {
      "calibrate",
      "line",
      "--rig",
      "51ab",
      "--zero",
      "0",
      "--span",
      "437.25",
      "--span-gf",
      "1",
      "--u-span",
      "0.4",
      "--to-gf",
      "1000",
      "--json",
      "--data",
      data()
    };
    long guidedMillis = millis(guided);
    long lineMillis = millis(line);
    return random -> {
      boolean walk = random.nextBoolean();
      List<String> said =
          walk ? killed(random, guidedMillis, guided) : killed(random, lineMillis, line);
      Sound.demand(folder.resolve("data"), reader -> demandSaved(reader, said));
      demandUnfinishedReadable();
    };
  }

  /** The line is long: the kill may have torn it behind the id. */
  private static void demandSaved(StoreReader reader, List<String> said) {
    for (String line : said) {
      Matcher id = CALIBRATION.matcher(line);
      if (id.find()) {
        assertThat(reader.calibration(id.group(1))).as("announced: " + line).isPresent();
      }
    }
  }

  private void demandUnfinishedReadable() throws IOException {
    for (Path file : named("unfinished-", ".json")) {
      UnfinishedSheet.read(file);
    }
  }

  private List<Path> named(String begin, String end) throws IOException {
    try (Stream<Path> files = Files.list(folder.resolve("data"))) {
      return files
          .filter(f -> f.getFileName().toString().startsWith(begin))
          .filter(f -> f.getFileName().toString().endsWith(end))
          .toList();
    }
  }

  /** An inspection that is typed in. */
  Victim journalEntry() throws Exception {
    millis("blade", "add", "invented", "--data", data());
    millis("session", "start", "evening", "--blade", "invented", "--data", data());
    String[] inspect = {"inspect", "l", "light", "h", "none", "--data", data()};
    long usualMillis = millis(inspect);
    return random -> {
      long before = inspections();
      List<String> said = killed(random, usualMillis, inspect);
      Sound.demand(folder.resolve("data"), reader -> {});
      boolean announced = said.stream().anyMatch(line -> line.startsWith("["));
      assertThat(inspections()).isBetween(before + (announced ? 1 : 0), before + 1);
    };
  }

  private long inspections() {
    try (StoreReader reader = StoreReader.open(folder.resolve("data"))) {
      return reader.journal().log("evening").orElseThrow().inspections().size();
    }
  }

  /** An old log of three cuts, another one each time, and a package. */
  Victim imports() throws Exception {
    Path zip = folder.resolve("package.zip");
    try (InputStream in = Store.class.getResourceAsStream("/snick/exchange/format-1.zip")) {
      Files.copy(in, zip);
    }
    long logMillis = millis("import", log(0).toString(), "--rig", "old", "--data", data());
    long cutsOfALog = Sound.cuts(folder.resolve("data"));
    assertThat(cutsOfALog).isPositive();
    long zipMillis = millis("import", zip.toString(), "--data", folder.resolve("first").toString());
    return random -> {
      if (random.nextBoolean()) {
        long before = Sound.cuts(folder.resolve("data"));
        List<String> said =
            killed(
                random,
                logMillis,
                "import",
                log(round + 1).toString(),
                "--rig",
                "old",
                "--data",
                data());
        demandAllOrNothing(folder.resolve("data"), said, before, cutsOfALog);
      } else {
        Path fresh = folder.resolve("fresh" + round);
        List<String> said =
            killed(random, zipMillis, "import", zip.toString(), "--data", fresh.toString());
        if (Files.exists(fresh.resolve("snick.db"))) {
          demandAllOrNothing(fresh, said, 0, Sound.cuts(folder.resolve("first")));
        }
        FuzzFolder.empty(Files.createDirectories(fresh));
      }
    };
  }

  private static void demandAllOrNothing(Path store, List<String> said, long before, long cuts) {
    boolean announced = said.stream().anyMatch(line -> line.contains("new cuts stored"));
    Sound.demand(
        store,
        reader ->
            assertThat(reader.count(CutSelection.all()))
                .isIn(announced ? before + cuts : before, before + cuts));
  }

  private Path log(int number) throws IOException {
    TextForm form = new TextForm(true, false, 0, false);
    byte[] text =
        Streams.of(
            usual -> usual.with(usual.device().withText(form)),
            new Action.Rest(2 + number * 0.01),
            Action.Cut.ofGramForce(80, 200),
            new Action.Rest(1),
            Action.Cut.ofGramForce(90, 200),
            new Action.Rest(1),
            Action.Cut.ofGramForce(70, 200),
            new Action.Rest(1));
    return Files.write(folder.resolve("log.csv"), text);
  }

  /** A backup of a store with many cuts. */
  Victim backup() throws Exception {
    OlderStore.make(folder.resolve("data"), STORED_CUTS);
    Store.open(folder.resolve("data"), Clock.systemUTC()).close();
    Path first = folder.resolve("first.db");
    long usualMillis = millis("store", "backup", first.toString(), "--data", data());
    return random -> {
      Path target = folder.resolve("copy" + round + ".db");
      List<String> said =
          killed(random, usualMillis, "store", "backup", target.toString(), "--data", data());
      boolean announced = said.stream().anyMatch(line -> line.contains("checked."));
      assertThat(announced && !Files.exists(target)).isFalse();
      if (Files.exists(target)) {
        Path restored = folder.resolve("restored" + round);
        Store.restore(target, restored, Watch.NONE);
        Sound.demand(
            restored,
            reader -> assertThat(reader.count(CutSelection.all())).isEqualTo(STORED_CUTS));
        FuzzFolder.empty(restored);
      }
      assertThat(Sound.cuts(folder.resolve("data"))).isEqualTo(STORED_CUTS);
    };
  }
}
