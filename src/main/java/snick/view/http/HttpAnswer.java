package snick.view.http;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import snick.json.Json;
import snick.phrase.Phrase;
import snick.phrase.Words;

/** What is sent back. */
public sealed interface HttpAnswer {
  /**
   * A complete answer.
   *
   * @param status HTTP status
   * @param headers by name
   * @param body as sent
   */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  record Whole(int status, Map<String, String> headers, byte[] body) implements HttpAnswer {
    /** This answer with one more header. */
    public Whole with(String name, String value) {
      Map<String, String> more = new TreeMap<>(headers);
      more.put(name, value);
      return new Whole(status, more, body);
    }

    /** This answer, to be kept as a file called {@code name}. */
    public Whole saved(String name) {
      return with("Content-Disposition", "attachment; filename=\"" + name + "\"");
    }

    /** The body as text. */
    public String text() {
      return new String(body, StandardCharsets.UTF_8);
    }
  }

  /** An event stream that stays open: {@code viewer} writes it. */
  record Stream(Viewer viewer) implements HttpAnswer {}

  /** Text of media type {@code type}. */
  static Whole of(int status, String type, String text) {
    return of(status, type, text.getBytes(StandardCharsets.UTF_8));
  }

  /** Bytes of media type {@code type}, not to be kept by the browser. */
  static Whole of(int status, String type, byte[] body) {
    return new Whole(status, Map.of("Content-Type", type, "Cache-Control", "no-store"), body);
  }

  /** A page or picture of its own, with its style in it. */
  static Whole document(String type, String text) {
    return document(type, text.getBytes(StandardCharsets.UTF_8));
  }

  /** A page or picture of its own, with its style in it; it runs no script and asks for nothing. */
  static Whole document(String type, byte[] body) {
    return of(200, type, body)
        .with(
            "Content-Security-Policy",
            "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none';"
                + " frame-ancestors 'none'");
  }

  /** There is nothing to show yet. */
  static Whole nothing() {
    return new Whole(204, Map.of("Cache-Control", "no-store"), new byte[0]);
  }

  /** A JSON document. */
  static Whole json(int status, Object document) {
    return of(status, "application/json", Json.text(document));
  }

  /**
   * A refusal (RFC 9457), put into the page's language on its way out.
   *
   * @param why what is wrong and what to do next, for people
   * @param near names that may be meant; if there are any, this asks back: sent once more with
   *     {@code new} true, the act is done
   */
  record Problem(int status, Phrase why, List<String> near) implements HttpAnswer {
    /** In the language of {@code words}. */
    public Whole in(Words words) {
      Map<String, Object> document = Json.object("status", status, "detail", words.say(why));
      if (!near.isEmpty()) {
        document.put("near", near);
      }
      return of(status, "application/problem+json", Json.text(document));
    }
  }

  /** A refusal: the text {@code key} of the catalog with {@code values}. */
  static Problem problem(int status, String key, Object... values) {
    return new Problem(status, Phrase.of(key, values), List.of());
  }
}
