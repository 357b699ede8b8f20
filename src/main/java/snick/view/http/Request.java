package snick.view.http;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import snick.journal.name.Field;
import snick.phrase.NotAccepted;

/**
 * One HTTP request, as the server's seam hands it on.
 *
 * @param method as sent, in capitals
 * @param path decoded path, without query
 * @param query decoded parameters; of a repeated one the first
 * @param headers values by name in lower case
 * @param body at most {@link #bodyLimitBytes}; empty while only the head is known
 * @param parts what stands in the path for the names in braces of its route, in order
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
public record Request(
    String method,
    String path,
    Map<String, String> query,
    Map<String, List<String>> headers,
    byte[] body,
    List<String> parts) {
  /** Largest body that is read, but for a photo. */
  public static final int BODY_LIMIT_BYTES = 1 << 16;

  /** The page makes a photo smaller before it sends it. */
  private static final int PHOTO_LIMIT_BYTES = 4 << 20;

  private static final Pattern PHOTO =
      Pattern.compile("/api/v1/sessions/\\d{1,15}/inspections/\\d{1,15}/photo");

  /** Whether this brings a photo. */
  boolean isPhoto() {
    return method.equals("POST") && PHOTO.matcher(path).matches();
  }

  /** Largest body of this. */
  int bodyLimitBytes() {
    return isPhoto() ? PHOTO_LIMIT_BYTES : BODY_LIMIT_BYTES;
  }

  /** The values of a header; empty if absent. */
  List<String> all(String header) {
    return headers.getOrDefault(header.toLowerCase(Locale.ROOT), List.of());
  }

  /** The only value of a header; empty if absent or repeated. */
  public Optional<String> one(String header) {
    List<String> values = all(header);
    return values.size() == 1 ? Optional.of(values.get(0)) : Optional.empty();
  }

  /** A parameter. */
  public Optional<String> parameter(String name) {
    return Optional.ofNullable(query.get(name));
  }

  /** A parameter that says something; empty if absent or blank. */
  public Optional<String> text(String name) {
    return parameter(name).filter(text -> !text.isBlank());
  }

  /** A parameter that must be there. */
  public String needed(String name) {
    return text(name)
        .orElseThrow(() -> new NotAccepted("refused.missing", "field", Field.called(name)));
  }

  /** Whether a parameter is {@code true}. */
  public boolean says(String name) {
    return parameter(name).filter("true"::equals).isPresent();
  }

  /** A parameter that is a whole number within limits; {@code usual} if it is absent. */
  public long number(String name, long usual, long low, long high) {
    long value = parameter(name).map(Request::whole).orElse(usual);
    if (!(value >= low && value <= high)) {
      throw new NotAccepted(
          "refused.outside", "field", name, "value", value, "low", low, "high", high);
    }
    return value;
  }

  /** The whole number that {@code text} is. */
  public static long whole(String text) {
    if (!text.matches("\\d{1,15}")) {
      throw new NotAccepted("refused.whole_number_needed");
    }
    return Long.parseLong(text);
  }

  /** The same request with its body. */
  Request with(byte[] whole) {
    return new Request(method, path, query, headers, whole, parts);
  }

  /** The same request as its route takes it. */
  Request with(List<String> ofRoute) {
    return new Request(method, path, query, headers, body, ofRoute);
  }

  /** The number that is the first of the parts. */
  public long number() {
    return whole(parts.get(0));
  }

  /** What the body says; a JSON object. */
  public Fields fields() {
    return Fields.of(body);
  }
}
