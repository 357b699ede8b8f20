package snick.view;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.jr.ob.JSON;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.journal.Method;

/** The description agrees with what is served: OpenAPI Specification 3.1.0 (from memory). */
class OpenApiTest {
  @TempDir Path folder;
  private TestBench bench;
  private Map<String, Object> description;

  @BeforeEach
  void start() throws Exception {
    bench = new TestBench(folder);
    description = JSON.std.mapFrom(bench.get("/api/v1/openapi.json").body());
  }

  @AfterEach
  void stop() {
    bench.close();
  }

  @Test
  void everyRouteIsDescribedAndNothingElse() {
    Set<String> described = new TreeSet<>();
    at("paths")
        .forEach(
            (path, acts) ->
                ((Map<?, ?>) acts)
                    .keySet()
                    .forEach(
                        m -> described.add(m.toString().toUpperCase(Locale.ROOT) + " " + path)));
    Set<String> served = new TreeSet<>();
    bench.page.routes().forEach(route -> served.add(route.method() + " " + route.template()));
    assertThat(described).isEqualTo(served);
  }

  @Test
  void everyChangeNeedsTheTokenAndNoReadingDoes() {
    at("paths")
        .values()
        .forEach(
            acts -> {
              Map<?, ?> byMethod = (Map<?, ?>) acts;
              if (byMethod.containsKey("post")) {
                assertThat(((Map<?, ?>) byMethod.get("post")).containsKey("security")).isTrue();
              }
              if (byMethod.containsKey("get")) {
                assertThat(((Map<?, ?>) byMethod.get("get")).containsKey("security")).isFalse();
              }
            });
  }

  @Test
  void everyMemberThatIsSentIsDescribed() throws Exception {
    bench.post("sessions", "{\"blade\":\"petty\",\"name\":\"one\"}");
    bench.post("session/next-place", "{\"mm\":20}");
    long cut = 0;
    for (double gramForce : new double[] {120, 124, 119}) {
      cut = bench.cut(gramForce);
    }
    bench.post(
        "session/inspections",
        "{\"method\":\"magnifier\",\"magnification\":10,\"side\":\"left\",\"finding\":\"none\",\"place\":\"heel\"}");
    bench.post("session/stages", "{\"name\":\"stropped\"}");
    for (double gramForce : new double[] {90, 93, 91}) {
      cut = bench.cut(gramForce);
    }
    bench.post("cuts/" + cut + "/set-aside", "{\"reason\":\"slipped\"}");
    TestBench.await("cuts", () -> bench.get("/api/v1/bench").body().contains("slipped"));

    agrees("/health", "Health");
    agrees("/api/v1/state", "State");
    agrees("/api/v1/bench", "Bench");
    agrees("/api/v1/cuts/" + cut, "CutWithTrace");
  }

  @Test
  void everyWayOfLookingIsDescribed() {
    assertThat(at("paths").toString())
        .contains(Stream.of(Method.values()).map(Method::word).toList().toString());
  }

  private void agrees(String path, String schema) throws Exception {
    check(path, JSON.std.mapFrom(bench.get(path).body()), ref(schema));
  }

  private void check(String where, Object value, Map<?, ?> schema) {
    if (schema.containsKey("$ref")) {
      check(where, value, ref(schema.get("$ref").toString().replaceFirst(".*/", "")));
    } else if (value instanceof Map<?, ?> object && schema.containsKey("properties")) {
      Map<?, ?> properties = (Map<?, ?>) schema.get("properties");
      object.forEach(
          (name, member) -> {
            assertThat(properties.containsKey(name)).as("%s describes %s", where, name).isTrue();
            check(where + "." + name, member, (Map<?, ?>) properties.get(name));
          });
      assertThat(object.keySet().stream().map(Object::toString).toList())
          .as(where)
          .containsAll(required(schema));
    } else if (value instanceof List<?> list && schema.containsKey("items")) {
      list.forEach(item -> check(where + "[]", item, (Map<?, ?>) schema.get("items")));
    } else {
      assertThat(type(value)).as(where).isIn(allowed(schema));
      if (schema.containsKey("enum")) {
        assertThat((List<?>) schema.get("enum")).as(where).anyMatch(value::equals);
      }
    }
  }

  private static List<String> required(Map<?, ?> schema) {
    return schema.get("required") instanceof List<?> names
        ? names.stream().map(Object::toString).toList()
        : List.of();
  }

  private static List<String> allowed(Map<?, ?> schema) {
    String type = (String) schema.get("type");
    return type.equals("number") ? List.of("number", "integer") : List.of(type);
  }

  private static String type(Object value) {
    if (value instanceof Boolean) {
      return "boolean";
    }
    if (value instanceof Integer || value instanceof Long) {
      return "integer";
    }
    if (value instanceof Number) {
      return "number";
    }
    return value instanceof Map ? "object" : "string";
  }

  private Map<?, ?> ref(String name) {
    return (Map<?, ?>) ((Map<?, ?>) at("components").get("schemas")).get(name);
  }

  @SuppressWarnings("unchecked")
  private Map<String, Object> at(String member) {
    return (Map<String, Object>) description.get(member);
  }
}
