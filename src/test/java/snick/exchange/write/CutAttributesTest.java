package snick.exchange.write;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snick.cut.CutFigures;
import snick.exchange.table.PackageTable;
import snick.exchange.table.ParquetColumn;
import snick.json.AttributeJson;
import snick.quantity.Attribute;
import snick.store.Examples;
import snick.store.Store;
import snick.store.database.Query;
import snick.store.record.CutForce;
import snick.store.record.CutSummary;
import snick.store.record.Derivation;

/**
 * What is told of a cut is declared once: store, packages, pool and JSON have the same, and one
 * more declared is in all of them. The guide's worked example of adding a field is the invented
 * {@code hold_s} below: how long the load stood still.
 */
class CutAttributesTest {
  /** In earnest it would stand in {@code CutFigures.ATTRIBUTES}, with a getter of its own. */
  private static final Attribute<CutFigures> HOLD =
      Attribute.seconds(
          "hold_s", "Time for which the load stood still", f -> f.shape().fallNanos() / 2);

  private static final List<Attribute<Derivation>> DERIVED =
      Stream.concat(Derivation.ATTRIBUTES.stream(), Stream.of(HOLD.of(Derivation::figures)))
          .toList();

  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(strings = {"cut", "cut_result"})
  void theStoreHasAColumnForEachFigure(String table) throws SQLException {
    assertThat(columns(table)).containsAll(Query.columns(CutFigures.ATTRIBUTES));
  }

  @Test
  void theStoreHasAColumnForEachFigureOfAForce() throws SQLException {
    assertThat(columns("cut_force")).containsAll(Query.columns(CutForce.ATTRIBUTES));
  }

  private List<String> columns(String table) throws SQLException {
    Store.open(folder, Clock.systemUTC()).close();
    try (Connection store = DriverManager.getConnection("jdbc:sqlite:" + folder + "/snick.db");
        ResultSet rows =
            store
                .createStatement()
                .executeQuery("SELECT name FROM pragma_table_info('" + table + "')")) {
      List<String> names = new ArrayList<>();
      while (rows.next()) {
        names.add(rows.getString(1));
      }
      return names;
    }
  }

  private static List<String> names(List<? extends Attribute<?>> attributes) {
    return attributes.stream().map(a -> a.name()).toList();
  }

  @Test
  void packagesPoolAndJsonTellTheSame() {
    List<String> told =
        Stream.concat(names(Derivation.ATTRIBUTES).stream(), names(CutForce.ATTRIBUTES).stream())
            .toList();
    assertThat(names(PackageTable.CUTS.columns())).containsSubsequence(told);
    assertThat(names(PackageTable.HISTORY.columns())).containsSubsequence(told);
    assertThat(Pool.CUTS).extracting(ParquetColumn::name).containsSubsequence(told);
    assertThat(names(CutSummary.ATTRIBUTES)).containsSubsequence(told);
    assertThat(AttributeJson.properties(CutSummary.ATTRIBUTES))
        .containsKeys(told.toArray(String[]::new));
  }

  private static List<String> mainFilesWith(String pattern) throws IOException {
    Pattern sought = Pattern.compile(pattern);
    try (Stream<Path> files = Files.walk(Path.of("src/main"))) {
      List<String> found = new ArrayList<>();
      for (Path file :
          files.filter(f -> f.toString().matches(".*\\.(java|sql|js|json)")).toList()) {
        if (sought.matcher(Files.readString(file)).find()) {
          found.add(file.getFileName().toString());
        }
      }
      return found;
    }
  }

  /** Three files of the program, as the guide says: one more of them is one place too many. */
  @Test
  void aFieldIsDeclaredFoundAndStoredInOnePlaceEach() throws IOException {
    assertThat(mainFilesWith("\\bnew (CutFigures|CutFigures\\.(Shape|Rest))\\("))
        .containsExactlyInAnyOrder("CutFigures.java", "FoundLoading.java");
    for (String untold : List.of("ramp_samples", "zero_after_counts")) {
      assertThat(mainFilesWith("\\b" + untold + "\\b"))
          .as(untold)
          .containsExactlyInAnyOrder("CutFigures.java", "0001-store.sql");
    }
  }

  @Test
  void oneMoreIsInEveryForm() {
    CutFigures figures = Examples.severed(1).figures();
    assertThat(Query.columns(List.of(HOLD))).containsExactly("hold_ns");
    assertThat(AttributeJson.of(List.of(HOLD), figures)).containsEntry("hold_s", 0.00075);
    assertThat(AttributeJson.properties(List.of(HOLD)).get("hold_s").toString())
        .contains("number", "Time for which the load stood still, s");
    PackageTable<?> cuts = PackageTable.cuts(DERIVED, CutForce.ATTRIBUTES);
    assertThat(names(cuts.columns())).contains("hold_s");
    assertThat(cuts.schema().get("fields").toString())
        .contains("{name=hold_s, type=number, description=Time for which the load stood still");
    assertThat(Pool.cuts(DERIVED, CutForce.ATTRIBUTES))
        .extracting(ParquetColumn::name)
        .contains("hold_s");
  }

  @Test
  void aValueIsWrittenAsItsTypeSays() {
    CutFigures figures = Examples.severed(1).figures();
    assertThat(HOLD.value(figures)).isEqualTo(Optional.of(750_000L));
    assertThat(HOLD.told(figures)).contains(0.00075);
  }
}
