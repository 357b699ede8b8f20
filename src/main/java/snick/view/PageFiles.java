package snick.view;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import snick.journal.Method;
import snick.json.Json;
import snick.phrase.Words;
import snick.store.record.CutSummary;
import snick.view.http.HttpAnswer;
import snick.view.http.PageToken;

/** The page's files, read once from the program itself. Immutable. */
final class PageFiles {
  private static final String GLOSSARY = "glossary.";
  private static final String OF_REPORT = "report.";
  private static final String TOKEN_PLACE = "{{token}}";
  private static final Pattern PLACE = Pattern.compile("\\{\\{(\\w+\\.\\w+)\\}\\}");
  private static final String PLOT = "/META-INF/resources/webjars/uplot/1.6.30/dist/";

  /** The page's own scripts. */
  static final List<String> SCRIPTS =
      List.of(
          "bench.js",
          "acts.js",
          "aloud.js",
          "blades.js",
          "cut.js",
          "dom.js",
          "edge.js",
          "ended.js",
          "inspect.js",
          "mend.js",
          "nav.js",
          "photo.js",
          "rig.js",
          "say.js",
          "sessions.js",
          "stages.js",
          "steps.js",
          "stream.js",
          "trace.js",
          "work.js",
          "words.js");

  private static final List<String> LOOKS = List.of("bench.css", "controls.css", "mark.svg");

  private final Map<String, HttpAnswer.Whole> byPath = new HashMap<>();

  /** The page in the language of {@code words} for the holder of {@code token}. */
  PageFiles(PageToken token, Words words) {
    String page = worded(new String(resource("index.html"), StandardCharsets.UTF_8), words);
    put(
        "/",
        "text/html; charset=utf-8",
        page.replace(TOKEN_PLACE, token.text()).getBytes(StandardCharsets.UTF_8));
    put("/page/catalog.js", type("catalog.js"), catalog(words));
    SCRIPTS.forEach(name -> put("/page/" + name, type(name), resource(name)));
    LOOKS.forEach(name -> put("/page/" + name, type(name), resource(name)));
    put("/page/uplot.js", type("uplot.js"), resource(PLOT + "uPlot.iife.min.js"));
    put("/page/uplot.css", type("uplot.css"), resource(PLOT + "uPlot.min.css"));
  }

  private static String worded(String page, Words words) {
    return PLACE
        .matcher(
            page.replace("{{language}}", words.language()).replace("{{glossary}}", entries(words)))
        .replaceAll(found -> Matcher.quoteReplacement(markup(words, found.group(1))));
  }

  /** The glossary as rows of a description list, each with a place in addresses. */
  private static String entries(Words words) {
    StringBuilder rows = new StringBuilder();
    for (Words.Entry entry : words.glossary()) {
      String key = GLOSSARY + entry.key();
      rows.append("<dt id=\"word-").append(entry.key()).append("\">{{").append(key);
      rows.append("}}</dt><dd>{{").append(key).append("_is}}</dd>\n");
    }
    return rows.toString();
  }

  private static String markup(Words words, String key) {
    String text = words.texts().get(key);
    if (text == null) {
      throw new IllegalStateException("the catalog lacks " + key);
    }
    return text.replace("&", "&amp;").replace("<", "&lt;").replace("\"", "&quot;");
  }

  private static byte[] catalog(Words words) {
    Map<String, String> texts = new TreeMap<>(words.texts());
    texts.keySet().removeIf(key -> key.startsWith(OF_REPORT) || key.startsWith(GLOSSARY));
    List<String> methods =
        Stream.of(Method.values()).filter(m -> m != Method.FREE).map(Method::word).toList();
    return ("export const catalog = "
            + Json.text(texts)
            + ";\nexport const methods = "
            + Json.text(methods)
            + ";\n")
        .getBytes(StandardCharsets.UTF_8);
  }

  /** The description of what is served for programs. */
  HttpAnswer.Whole description() {
    return HttpAnswer.of(
        200,
        "application/json",
        ApiDescription.of(resource("openapi.json"), CutSummary.ATTRIBUTES)
            .getBytes(StandardCharsets.UTF_8));
  }

  /** The file at {@code path}. */
  Optional<HttpAnswer.Whole> find(String path) {
    return Optional.ofNullable(byPath.get(path));
  }

  private void put(String path, String type, byte[] content) {
    byPath.put(path, HttpAnswer.of(200, type, content));
  }

  private static String type(String name) {
    if (name.endsWith(".css")) {
      return "text/css; charset=utf-8";
    }
    return name.endsWith(".svg") ? "image/svg+xml" : "text/javascript; charset=utf-8";
  }

  private static byte[] resource(String name) {
    try (InputStream in =
        PageFiles.class.getResourceAsStream(name.startsWith("/") ? name : "/snick/view/" + name)) {
      if (in == null) {
        throw new IllegalStateException("the program lacks its file " + name);
      }
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
