package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cli.Ran;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;

/** A scale that was typed in wrong costs no cut, and does not come back in later runs. */
class MistypedScaleTest {
  @TempDir Path folder;
  private Path data;
  private Path log;

  @BeforeEach
  void write() throws Exception {
    data = folder.resolve("data");
    log = Files.write(folder.resolve("two.capture"), Streams.twoCuts());
  }

  private Ran run(String... options) {
    return snick("run " + log + " --no-http " + String.join(" ", options));
  }

  private Ran snick(String line) {
    return Ran.command((line + " --data " + data).split(" +", 0));
  }

  @Test
  void theInverseIsRefusedWithWhatWasMeant() {
    assertThat(run("--counts-per-gf", "0.00228702").err())
        .contains("was gf for each count typed? Then type 437.25");
    for (String absurd : new String[] {"1e308", "1e-300", "2e7"}) {
      Ran refused = run("--counts-per-gf", absurd);
      assertThat(refused.exit()).isEqualTo(2);
      assertThat(refused.err()).contains("is outside").doesNotContain("\tat ");
      assertThat(snick("analyze " + log + " --counts-per-gf " + absurd).exit()).isEqualTo(2);
    }
    assertThat(data).doesNotExist();
  }

  /** Not refused, since a count may be worth so much; 100 gf by it are some 85 kN. */
  @Test
  void whatCannotBeAForceIsStoredInCountsAndDerivedLater() {
    Ran wrong = run("--counts-per-gf", "0.005");
    assertThat(wrong.err()).contains("stored in counts", "was gf for each count typed");
    assertThat(wrong.exit()).isZero();
    assertThat(forces(2)).isZero();
    theReasonStays(data);
    assertThat(run("").err()).doesNotContain("internal error", "was gf for each count");
    assertThat(forces(4)).isZero();
    assertThat(run("--counts-per-gf", "437.25").exit()).isZero();
    assertThat(forces(6)).isEqualTo(2);
    assertThat(snick("rederive").exit()).isZero();
    assertThat(forces(6)).isEqualTo(6);
  }

  /** With the cut, in both forms, in an export and in the store that takes it in. */
  private void theReasonStays(Path store) {
    Path other = folder.resolve("other");
    Path zip = folder.resolve("two.zip");
    assertThat(snick("rederive").out()).contains("2 cuts get no force", "(when recorded: ");
    assertThat(snick("export " + zip).exit()).isZero();
    Ran in = Ran.command("import", zip.toString(), "--data", other.toString());
    assertThat(in.exit()).as(in.err()).isZero();
    for (Path each : new Path[] {store, other}) {
      for (String form : new String[] {"", "--json"}) {
        assertThat(
                Ran.command(("cuts show 2 --data " + each + " " + form).strip().split(" +", 0))
                    .out())
            .contains("was gf for each count typed", form.isEmpty() ? "no force" : "force_missing");
      }
    }
  }

  private long forces(int ofCuts) {
    try (StoreReader reader = StoreReader.open(data)) {
      assertThat(reader.count(CutSelection.all())).isEqualTo(ofCuts);
      return reader.latest(CutSelection.all(), ofCuts).stream()
          .map(CutSummary::force)
          .filter(force -> force.isPresent())
          .count();
    }
  }
}
