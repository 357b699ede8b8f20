package snick.view;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The page's files, read once from the program itself. Immutable. */
final class PageFiles {
  private static final String TOKEN_PLACE = "{{token}}";
  private static final String PLOT = "/META-INF/resources/webjars/uplot/1.6.30/dist/";

  /** The page's own scripts. */
  static final List<String> SCRIPTS =
      List.of(
          "bench.js",
          "acts.js",
          "cut.js",
          "dom.js",
          "edge.js",
          "inspect.js",
          "rig.js",
          "stages.js",
          "stream.js",
          "trace.js",
          "words.js");

  private static final List<String> LOOKS = List.of("bench.css", "controls.css", "mark.svg");

  private final Map<String, Answer.Whole> byPath = new HashMap<>();

  /** The page for the holder of {@code token}. */
  PageFiles(PageToken token) {
    String page = new String(resource("index.html"), StandardCharsets.UTF_8);
    put(
        "/",
        "text/html; charset=utf-8",
        page.replace(TOKEN_PLACE, token.text()).getBytes(StandardCharsets.UTF_8));
    SCRIPTS.forEach(name -> put("/page/" + name, type(name), resource(name)));
    LOOKS.forEach(name -> put("/page/" + name, type(name), resource(name)));
    put("/page/uplot.js", type("uplot.js"), resource(PLOT + "uPlot.iife.min.js"));
    put("/page/uplot.css", type("uplot.css"), resource(PLOT + "uPlot.min.css"));
  }

  /** The description of what is served for programs. */
  Answer.Whole description() {
    return Answer.of(200, "application/json", resource("openapi.json"));
  }

  /** The file at {@code path}. */
  Optional<Answer.Whole> find(String path) {
    return Optional.ofNullable(byPath.get(path));
  }

  private void put(String path, String type, byte[] content) {
    byPath.put(path, Answer.of(200, type, content));
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
