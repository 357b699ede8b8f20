package snick.view;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import snick.Pseudo;
import snick.sample.IgnoredSamples;
import snick.sample.SampleSink;
import snick.view.bench.Preferences;
import snick.view.http.Doorkeeper;
import snick.view.http.PageReach;

/**
 * A page in a language made from the catalog. Whatever is English in what it answers did not come
 * from there, and is held; only what people type, units and the names of JSON fields may stay.
 */
abstract class PseudoPage {
  /** Fields that hold a text for people; others are looked at if they hold more than a word. */
  private static final Set<String> TEXTS =
      Set.of("detail", "text", "measured", "expected", "meaning", "remedy", "message", "failed");

  /** Typed here, or the name of a field, a file or a word of the interface. */
  static final List<String> TYPED =
      List.of(
          "kitchen knife",
          "kitchen knifes",
          "petty",
          "as found",
          "as fuond",
          "deburred",
          "abc",
          "nothing of that name",
          "{\"side\":\"left\"}",
          "strokes_per_side",
          "edge_length_mm",
          "filament_lot",
          "first_stage",
          "application/json",
          "image/jpeg",
          "--http-name",
          Doorkeeper.TOKEN_HEADER);

  static final Pattern TAG =
      Pattern.compile("<(?:style|svg)[^>]*>.*?</(?:style|svg)>|<[^>]*>", Pattern.DOTALL);

  @TempDir Path folder;
  TestBench bench;
  SampleSink rig;
  final Set<String> acted = new TreeSet<>();
  final List<String> english = new ArrayList<>();
  private List<String> named = List.of();

  @BeforeEach
  void open() throws IOException {
    bench = new TestBench(folder, PageReach.loopback(), preferences());
    rig = bench.tap.before(new IgnoredSamples());
  }

  /** The pseudo-language, and a margin so that verdicts speak of it. */
  static Preferences preferences() {
    return new Preferences(
        OptionalDouble.of(8),
        Optional.empty(),
        Optional.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        Pseudo.words());
  }

  @AfterEach
  void close() {
    bench.close();
  }

  /** Does something; what is answered is told in the language of the page. */
  HttpResponse<String> act(String path, String json) throws Exception {
    HttpResponse<String> answer = bench.post(path, json);
    acted.add("POST /api/v1/" + path);
    told("POST " + path + " " + json, answer);
    return answer;
  }

  void refused(String path, String json) throws Exception {
    assertThat(act(path, json).statusCode()).as(path + " " + json).isBetween(400, 499);
  }

  /** As {@link #refused}: tells of fields and words of the interface, which are no language. */
  void refusedNaming(String names, String path, String json) throws Exception {
    named = List.of(names.split(", "));
    refused(path, json);
    named = List.of();
  }

  void asked(String path) throws Exception {
    told("GET " + path, bench.get(path));
  }

  void told(String what, HttpResponse<String> answer) throws IOException {
    String type = answer.headers().firstValue("Content-Type").orElse("");
    if (type.contains("json")) {
      look(what, "", JSON.std.anyFrom(answer.body()));
    }
    if (type.contains("html") || type.contains("svg")) {
      held(what, TAG.matcher(answer.body()).replaceAll(" "), TYPED);
    }
  }

  void held(String what, String text, List<String> names) {
    List<String> all = new ArrayList<>(names);
    all.addAll(named);
    Set<String> found = Pseudo.english(text, all);
    if (!found.isEmpty()) {
      english.add(what + ": " + found + (text.length() < 300 ? " in " + text : ""));
    }
  }

  void look(String what, String name, Object value) {
    if (value instanceof Map<?, ?> map) {
      map.forEach((key, member) -> look(what, (String) key, member));
    } else if (value instanceof List<?> list) {
      list.forEach(member -> look(what, name, member));
    } else if (value instanceof String text
        && (TEXTS.contains(name) || text.strip().contains(" "))) {
      held(what + ": " + name, text, TYPED);
    }
  }
}
