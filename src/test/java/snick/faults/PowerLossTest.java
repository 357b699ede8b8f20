package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.Needs;
import snick.cli.Main;
import snick.store.Store;
import snick.store.database.StoreException;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;

/**
 * Power fails at any instant of recording: whatever of the writes that were not synced reached the
 * disk, every announced cut is there. Writes and syncs are written down between the program and the
 * system (see {@code disk_log.c}); the disk is rebuilt from that.
 */
class PowerLossTest {
  private static final int INSTANTS = Integer.getInteger("snick.power.losses", 30);

  @TempDir static Path folder;
  private static Path log;

  @BeforeAll
  static void record() throws Exception {
    Path library = folder.resolve("disk_log.so");
    Path source = folder.resolve("disk_log.c");
    try (InputStream in = PowerLossTest.class.getResourceAsStream("disk_log.c")) {
      Files.copy(in, source);
    }
    Needs.tool(
        SystemProgram.does(
            "gcc", "-shared", "-fPIC", "-O2", "-o", "" + library, "" + source, "-ldl"),
        "no C compiler, gcc",
        "that nothing announced is lost when power fails");
    log = folder.resolve("log");
    Path data = folder.resolve("data");
    Path rig = Files.write(folder.resolve("rig.bin"), manyCuts());
    ProcessBuilder recorder =
        new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-XX:TieredStopAtLevel=1",
            "-cp",
            System.getProperty("java.class.path"),
            Main.class.getName(),
            "run",
            rig.toString(),
            "--json",
            "--no-http",
            "--data",
            data.toString());
    recorder.environment().put("LD_PRELOAD", library.toString());
    recorder.environment().put("DISK_LOG_FOLDER", data.toString());
    recorder.environment().put("DISK_LOG", log.toString());
    recorder.redirectErrorStream(true).redirectOutput(folder.resolve("said").toFile());
    assertThat(recorder.start().waitFor()).as(Files.readString(folder.resolve("said"))).isZero();
  }

  private static byte[] manyCuts() {
    Script cuts = Script.of(new Action.Rest(2), Action.Cut.ofGramForce(60, 200)).times(60);
    return Streams.of(usual -> usual, cuts.actions().toArray(Action[]::new));
  }

  @Test
  void whatWasAnnouncedIsThere() throws IOException {
    int announced = 0;
    int lost = 0;
    for (List<Integer> found : losses(INSTANTS, true)) {
      announced += found.get(0);
      lost += found.get(1);
    }
    assertThat(announced).isGreaterThan(10 * INSTANTS);
    assertThat(lost).isZero();
  }

  /** A disk that says it has synced and has not loses cuts, and this test would see it. */
  @Test
  void aDiskThatLiesLosesThem() throws IOException {
    assertThatThrownBy(() -> assertThat(losses(10, false)).allMatch(found -> found.get(1) == 0))
        .isInstanceOfAny(StoreException.class, AssertionError.class);
  }

  /** Announced cuts and those that are not there, for each instant. */
  private static List<List<Integer>> losses(int instants, boolean keepsSyncs) throws IOException {
    SplittableRandom random = new SplittableRandom(7);
    LoggedDisk disk = new LoggedDisk(log, keepsSyncs);
    List<List<Integer>> found = new ArrayList<>();
    for (int at :
        IntStream.range(0, instants).map(i -> random.nextInt(disk.bytes())).sorted().toArray()) {
      disk.runTo(at);
      Path left = Files.createTempDirectory(folder, "left").resolve("data");
      disk.after(left, random);
      found.add(of(left, ids(disk.printed())));
    }
    return found;
  }

  private static List<Long> ids(String printed) throws IOException {
    List<Long> ids = new ArrayList<>();
    for (String line : printed.lines().filter(l -> l.endsWith("}")).toList()) {
      ids.add(((Number) JSON.std.mapFrom(line).get("id")).longValue());
    }
    return ids;
  }

  private static List<Integer> of(Path left, List<Long> announced) {
    Store.open(left, Clock.systemUTC()).close();
    int[] lost = {0};
    Sound.demand(
        left, reader -> announced.forEach(id -> lost[0] += reader.cut(id).isPresent() ? 0 : 1));
    return List.of(announced.size(), lost[0]);
  }
}
