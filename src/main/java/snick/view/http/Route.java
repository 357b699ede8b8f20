package snick.view.http;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * One thing that programs can ask for.
 *
 * @param method GET or POST
 * @param template path, with names in braces for what varies
 * @param act gives the answer
 */
public record Route(String method, String template, Act act) {
  /** Answers a request. */
  @FunctionalInterface
  public interface Act {
    /** The answer. */
    HttpAnswer answer(Request request);
  }

  /** The request with what stands for the names in braces, if its path fits. */
  public Optional<Request> match(Request request) {
    return match(request.path()).map(request::with);
  }

  /** What stands for the names in braces, if {@code path} fits. */
  public Optional<List<String>> match(String path) {
    String[] wanted = template.split("/", -1);
    String[] given = path.split("/", -1);
    if (wanted.length != given.length) {
      return Optional.empty();
    }
    List<String> parts = new ArrayList<>();
    for (int i = 0; i < wanted.length; i++) {
      if (wanted[i].startsWith("{")) {
        parts.add(given[i]);
      } else if (!wanted[i].equals(given[i])) {
        return Optional.empty();
      }
    }
    return Optional.of(parts);
  }
}
