package snick.cli.recorder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.jr.ob.JSON;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.cli.Jar;

/** The main job on real bytes: the shipped jar, a real pseudo-terminal, a real store. */
class DemoIT {
  private static final Pattern LINE =
      Pattern.compile("#(\\d+) .* ([0-9.]+) ± ([0-9.]+) gf  true +([0-9.]+) gf");

  @TempDir Path data;

  @Test
  void theDemoFindsEveryCutAndKeepsIt() throws Exception {
    Jar jar = Jar.onThisJava();
    Jar.Done demo = jar.run("demo", "--speed", "20", "--data", data.toString());

    assertThat(demo.err()).isEmpty();
    assertThat(demo.exit()).isZero();
    List<Matcher> cuts = demo.out().lines().map(LINE::matcher).filter(Matcher::find).toList();
    assertThat(cuts).hasSize(24);
    for (Matcher cut : cuts) {
      double measured = Double.parseDouble(cut.group(2));
      double truth = Double.parseDouble(cut.group(4));
      assertThat(measured).as(cut.group()).isCloseTo(truth, within(0.03 * truth));
    }
    assertThat(Files.exists(data.resolve("snick.db"))).isTrue();
    assertStored(jar, cuts);
    assertThat(demo.out())
        .contains("plateau: reached since 'stropped'")
        .contains("burr, as found: likely")
        .contains("burr, stropped again: not indicated")
        .contains("next: stop, there is no more to gain");
  }

  private void assertStored(Jar jar, List<Matcher> cuts) throws Exception {
    Jar.Done list = jar.run("cuts", "list", "--limit", "100", "--json", "--data", data.toString());
    List<String> lines = list.out().lines().toList();

    assertThat(list.err()).isEmpty();
    assertThat(lines).hasSize(cuts.size());
    for (int i = 0; i < lines.size(); i++) {
      Map<String, Object> stored = JSON.std.mapFrom(lines.get(lines.size() - 1 - i));
      assertThat(stored.get("outcome")).isEqualTo("severed");
      assertThat(((Number) stored.get("force_gf")).doubleValue())
          .isCloseTo(Double.parseDouble(cuts.get(i).group(2)), within(0.06));
      assertThat(stored).containsKeys("place_mm", "stage", "session", "u_n");
    }
  }
}
