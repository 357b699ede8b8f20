package snick.view;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * One HTTP request, as the server's seam hands it on.
 *
 * @param method as sent, in capitals
 * @param path decoded path, without query
 * @param query decoded parameters; of a repeated one the first
 * @param headers values by name in lower case
 * @param body at most {@link #BODY_LIMIT_BYTES}; empty while only the head is known
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
record Request(
    String method,
    String path,
    Map<String, String> query,
    Map<String, List<String>> headers,
    byte[] body) {
  /** Largest body that is read. */
  static final int BODY_LIMIT_BYTES = 1 << 16;

  /** The values of a header; empty if absent. */
  List<String> all(String header) {
    return headers.getOrDefault(header.toLowerCase(Locale.ROOT), List.of());
  }

  /** The only value of a header; empty if absent or repeated. */
  Optional<String> one(String header) {
    List<String> values = all(header);
    return values.size() == 1 ? Optional.of(values.get(0)) : Optional.empty();
  }

  /** A parameter. */
  Optional<String> parameter(String name) {
    return Optional.ofNullable(query.get(name));
  }

  /** The same request with its body. */
  Request with(byte[] whole) {
    return new Request(method, path, query, headers, whole);
  }
}
