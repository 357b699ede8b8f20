package snick.view.http;

import static org.assertj.core.api.Assertions.assertThat;
import static snick.InEnglish.told;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Who gets in. Attacks after OWASP's cheat sheets on CSRF and DNS rebinding (from memory). */
class DoorkeeperTest {
  private final PageToken token = PageToken.random();
  private final Doorkeeper keeper = new Doorkeeper(List.of("Bench.example"), token, false);

  @ParameterizedTest
  @ValueSource(
      strings = {
        "localhost",
        "localhost:8737",
        "LOCALHOST:80",
        "127.0.0.1",
        "127.0.0.1:8737",
        "[::1]",
        "[::1]:8737",
        "bench.example:1"
      })
  void answersItsOwnNames(String host) {
    assertThat(keeper.refuse(get(host))).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "evil.example",
        "127.0.0.1.evil.example",
        "127.0.0.1.nip.io",
        "127.evil.example",
        "localhost.evil.example",
        "evil-localhost",
        "localhost.",
        "127.0.0.1.",
        "127.1",
        "2130706433",
        "0.0.0.0",
        "0",
        "[::]",
        "[::ffff:127.0.0.1]",
        "::1",
        "localhost:80:80",
        "localhost:",
        "localhost:999999",
        "localhost@evil.example",
        "evil.example@localhost",
        "localhost evil.example",
        "localhost,evil.example",
        "bench.example.evil.example",
        "ｌocalhost",
        ""
      })
  void refusesEveryOtherName(String host) {
    HttpAnswer.Problem refusal = keeper.refuse(get(host)).orElseThrow();
    assertThat(refusal.status()).isEqualTo(403);
    assertThat(told(refusal.why())).contains("--http-name");
  }

  @Test
  void refusesNoNameAndTwoNames() {
    assertThat(keeper.refuse(request("GET", Map.of()))).isPresent();
    assertThat(keeper.refuse(request("GET", Map.of("host", List.of("localhost", "evil.example")))))
        .isPresent();
    assertThat(keeper.refuse(request("GET", Map.of("host", List.of("localhost", "localhost")))))
        .isPresent();
  }

  @Test
  void refusesABadNameBeforeAnythingElse() {
    Map<String, List<String>> headers = change();
    headers.put("host", List.of("evil.example"));
    headers.put("origin", List.of("http://evil.example"));
    assertThat(keeper.refuse(request("POST", headers)).orElseThrow().status()).isEqualTo(403);
  }

  @Test
  void takesAChangeFromThePageAndFromAProgram() {
    assertThat(keeper.refuse(request("POST", change()))).isEmpty();
    Map<String, List<String>> page = change();
    page.put("origin", List.of("http://localhost:8737"));
    page.put("sec-fetch-site", List.of("same-origin"));
    assertThat(keeper.refuse(request("POST", page))).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "http://evil.example",
        "https://localhost:8737",
        "http://localhost:8738",
        "http://localhost",
        "http://127.0.0.1:8737",
        "http://localhost:8737.evil.example",
        "null",
        "file://",
        ""
      })
  void refusesAForgedOrigin(String origin) {
    Map<String, List<String>> headers = change();
    headers.put("origin", List.of(origin));
    assertThat(keeper.refuse(request("POST", headers)).orElseThrow().status()).isEqualTo(403);
  }

  @ParameterizedTest
  @ValueSource(strings = {"cross-site", "same-site", "none"})
  void refusesAChangeThatABrowserSaysComesFromElsewhere(String site) {
    Map<String, List<String>> headers = change();
    headers.put("sec-fetch-site", List.of(site));
    assertThat(keeper.refuse(request("POST", headers)).orElseThrow().status()).isEqualTo(403);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "application/x-www-form-urlencoded",
        "text/plain",
        "multipart/form-data; boundary=x",
        "text/plain; application/json",
        "application/jsonp",
        ""
      })
  void refusesWhatAFormCanSend(String type) {
    Map<String, List<String>> headers = change();
    headers.put("content-type", List.of(type));
    assertThat(keeper.refuse(request("POST", headers)).orElseThrow().status()).isEqualTo(415);
  }

  @Test
  void refusesAWrongMissingOrRepeatedToken() {
    for (List<String> tokens :
        List.of(
            List.of("0".repeat(64)), List.of(""), new ArrayList<String>(), twice(token.text()))) {
      Map<String, List<String>> headers = change();
      headers.put("x-snick-token", tokens);
      assertThat(keeper.refuse(request("POST", headers)).orElseThrow().status()).isEqualTo(403);
    }
  }

  @ParameterizedTest
  @CsvSource({"PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT"})
  void knowsNoOtherMethods(String method) {
    assertThat(keeper.refuse(request(method, change())).orElseThrow().status()).isEqualTo(405);
  }

  @Test
  void beyondLoopbackReadingNeedsTheTokenToo() {
    Doorkeeper open = new Doorkeeper(List.of("bench.example"), token, true);
    assertThat(open.refuse(get("bench.example"))).isPresent();
    Map<String, List<String>> cookie = new HashMap<>(Map.of("host", List.of("bench.example")));
    cookie.put("cookie", List.of("a=b; snick-token=" + token.text()));
    assertThat(open.refuse(request("GET", cookie))).isEmpty();
    cookie.put("cookie", List.of("snick-token=" + "0".repeat(64)));
    assertThat(open.refuse(request("GET", cookie))).isPresent();
  }

  @Test
  void aCookieAloneChangesNothing() {
    Map<String, List<String>> headers = change();
    headers.remove("x-snick-token");
    headers.put("cookie", List.of("snick-token=" + token.text()));
    assertThat(keeper.refuse(request("POST", headers))).isPresent();
  }

  private static List<String> twice(String text) {
    return List.of(text, text);
  }

  private Map<String, List<String>> change() {
    Map<String, List<String>> headers = new HashMap<>();
    headers.put("host", List.of("localhost:8737"));
    headers.put("content-type", List.of("application/json"));
    headers.put("x-snick-token", List.of(token.text()));
    return headers;
  }

  private static Request get(String host) {
    return request("GET", Map.of("host", List.of(host)));
  }

  private static Request request(String method, Map<String, List<String>> headers) {
    return new Request(method, "/", Map.of(), headers, new byte[0], List.of());
  }
}
