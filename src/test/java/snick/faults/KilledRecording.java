package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.concurrent.CompletableFuture;
import snick.store.StoreReader;
import snick.store.record.StoredCut;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.settings.RigSettings;

/** Recording from a rig that cuts about ten times a second; each announced cut is stored. */
final class KilledRecording implements Victim {
  private static final double SPEED = 20;
  private static final int MOST_MILLIS = 1500;

  private final Path folder;
  private final ServedRig rig;
  private final CompletableFuture<Void> cutting;

  KilledRecording(Path folder) throws IOException {
    this.folder = folder;
    rig =
        new VirtualRig(RigSettings.USUAL, 5)
            .serve(
                folder.resolve("rig"),
                Pacer.of(System::nanoTime, SPEED),
                VirtualRig.WhenFull.DROP,
                truth -> {});
    cutting = rig.perform(Streams.cutsForHours());
  }

  private Path data() {
    return folder.resolve("data");
  }

  @Override
  public void round(SplittableRandom random) throws Exception {
    Running run =
        Running.snick(
            folder,
            "run",
            rig.port(),
            "--http",
            "0",
            "--json",
            "--counts-per-gf",
            "437.25",
            "--data",
            data().toString());
    try (PageEvents page = new PageEvents()) {
      if (random.nextBoolean()) {
        String address = run.await("the page is ");
        page.watch(address);
        awaitCuts(run, 1 + random.nextInt(8), PageEvents.address(address));
      }
      Instants.pass(random.nextInt(MOST_MILLIS));
      run.kill();
      assertThat(cutting).as("the rig still cuts").isNotDone();
      demandAll(run.lines(), page.cuts());
    }
  }

  private static void awaitCuts(Running run, int count, String page) throws Exception {
    try {
      run.awaitCut(count);
    } catch (AssertionError e) {
      throw new AssertionError(e.getMessage() + PageEvents.get(page + "/health"), e);
    }
  }

  private void demandAll(List<String> lines, Set<Long> onPage) {
    if (Files.notExists(data().resolve("snick.db"))) {
      assertThat(lines).as("announced without a store").noneMatch(line -> line.startsWith("{"));
      return;
    }
    Sound.demand(
        data(),
        reader -> {
          for (String line : lines) {
            if (line.startsWith("{")) {
              demandStored(reader, line);
            }
          }
          onPage.forEach(id -> assertThat(reader.cut(id)).as("cut on the page").isPresent());
        });
  }

  private void demandStored(StoreReader reader, String line) {
    Map<String, Object> event;
    try {
      event = JSON.std.mapFrom(line);
    } catch (IOException e) {
      throw new AssertionError("a line was torn: " + line, e);
    }
    long id = ((Number) event.get("id")).longValue();
    StoredCut stored = reader.cut(id).orElseThrow(() -> new AssertionError("lost: " + line));
    assertThat(stored.cut().outcome().word()).isEqualTo(event.get("outcome"));
    assertThat(stored.cut().peak().orElseThrow().estimateCounts())
        .isEqualTo(event.get("estimate_counts"));
  }

  @Override
  public void close() {
    rig.close();
  }
}
