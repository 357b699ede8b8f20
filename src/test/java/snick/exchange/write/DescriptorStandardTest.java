package snick.exchange.write;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.exchange.Bench;
import snick.exchange.table.PackageTable;
import snick.json.Json;
import snick.store.StoreReader;
import snick.store.database.Watch;
import snick.store.record.CutSelection;

/**
 * The descriptor, clause by clause of the Data Package standard, version 2.0 (datapackage.org,
 * pages "Data Package", "Data Resource" and "Table Schema" of the standard). Its own JSON Schema is
 * in no registry that a build can reach.
 */
public class DescriptorStandardTest {
  private static final Pattern RESOURCE_NAME = Pattern.compile("[a-z0-9._-]+");
  private static final Pattern HASH = Pattern.compile("sha256:[0-9a-f]{64}");
  private static final Set<String> TYPES =
      Set.of(
          "string",
          "number",
          "integer",
          "boolean",
          "object",
          "array",
          "list",
          "datetime",
          "date",
          "time",
          "year",
          "yearmonth",
          "duration",
          "geopoint",
          "geojson",
          "any");

  @TempDir Path temporary;
  private Map<?, ?> descriptor;

  @BeforeEach
  void export() throws IOException {
    Path data = temporary.resolve("store");
    Path folder = temporary.resolve("package");
    Bench.fill(data, 3);
    ExportChoice choice =
        ExportChoice.of(CutSelection.all()).under(new Licence("CC-BY-4.0")).from("a sharpener");
    try (StoreReader reader = StoreReader.open(data)) {
      new PackageExport(reader, choice, Watch.NONE).toFolder(folder);
    }
    descriptor = (Map<?, ?>) Json.read(Files.readString(folder.resolve("datapackage.json")));
  }

  private static List<Map<?, ?>> list(Map<?, ?> of, String member) {
    List<Map<?, ?>> found = new ArrayList<>();
    ((List<?>) of.get(member)).forEach(item -> found.add((Map<?, ?>) item));
    return found;
  }

  private List<Map<?, ?>> resources() {
    return list(descriptor, "resources");
  }

  /** Data Package: "$schema" names the profile; "resources" is required and not empty. */
  @Test
  void thePackageNamesItsProfileAndHasResources() {
    assertThat(descriptor.get("$schema"))
        .isEqualTo("https://datapackage.org/profiles/2.0/datapackage.json");
    assertThat(resources()).isNotEmpty();
  }

  /** Data Package: a licence has a name or a path; a contributor has roles, no "role". */
  @Test
  void licencesAndContributorsHaveWhatTheyMust() {
    assertThat(list(descriptor, "licenses"))
        .isNotEmpty()
        .allMatch(l -> l.get("name") instanceof String || l.get("path") instanceof String);
    assertThat(list(descriptor, "contributors"))
        .isNotEmpty()
        .allMatch(c -> c.get("title") instanceof String && c.get("roles") instanceof List);
    assertThat(list(descriptor, "contributors")).noneMatch(c -> c.containsKey("role"));
  }

  /** Data Resource: a name of its own, a path that stays inside, bytes, hash with its algorithm. */
  @Test
  void everyResourceHasItsOwnNameAndAPathInside() {
    assertThat(resources()).extracting(r -> (Object) r.get("name")).doesNotHaveDuplicates();
    for (Map<?, ?> resource : resources()) {
      assertThat((String) resource.get("name")).matches(RESOURCE_NAME);
      assertThat((String) resource.get("path")).doesNotStartWith("/").doesNotContain("..", "://");
      assertThat((String) resource.get("hash")).matches(HASH);
      assertThat(((Number) resource.get("bytes")).longValue()).isNotNegative();
      assertThat(resource.containsKey("data")).isFalse();
      assertThat(resource.containsKey("profile")).isFalse();
    }
  }

  /** Data Resource: a table has type "table", its profile and a schema. */
  @Test
  void everyTableSaysThatItIsOne() {
    List<Map<?, ?>> tables =
        resources().stream().filter(r -> r.get("path").toString().endsWith(".csv")).toList();
    assertThat(tables).hasSameSizeAs(PackageTable.ALL);
    for (Map<?, ?> table : tables) {
      assertThat(table.get("type")).isEqualTo("table");
      assertThat(table.get("$schema"))
          .isEqualTo("https://datapackage.org/profiles/2.0/dataresource.json");
      requireSchema((Map<?, ?>) table.get("schema"));
    }
  }

  /** Table Schema: fields of known types; keys and foreign keys as lists of fields that exist. */
  private void requireSchema(Map<?, ?> schema) {
    assertThat(schema.get("$schema"))
        .isEqualTo("https://datapackage.org/profiles/2.0/tableschema.json");
    List<Map<?, ?>> fields = list(schema, "fields");
    List<Object> names = new ArrayList<>();
    fields.forEach(field -> names.add(field.get("name")));
    assertThat(names).isNotEmpty().doesNotHaveDuplicates().doesNotContainNull();
    assertThat(fields).allMatch(field -> TYPES.contains(field.get("type")));
    assertThat((List<?>) schema.get("primaryKey")).isNotEmpty().allMatch(names::contains);
    if (schema.containsKey("foreignKeys")) {
      for (Map<?, ?> key : list(schema, "foreignKeys")) {
        Map<?, ?> reference = (Map<?, ?>) key.get("reference");
        assertThat((List<?>) key.get("fields")).allMatch(names::contains);
        assertThat(resources())
            .anyMatch(resource -> resource.get("name").equals(reference.get("resource")));
        assertThat((List<?>) reference.get("fields")).hasSameSizeAs((List<?>) key.get("fields"));
      }
    }
  }
}
