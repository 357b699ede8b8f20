package snick.view.http;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * Who may ask for what. Answers only exact host names, so that a page from elsewhere cannot read
 * through a name that it controls; takes changes only as POST with a JSON body or a photo, the
 * token, and from the page itself or from a program. Immutable.
 *
 * <p>Rules after OWASP, Cross-Site Request Forgery Prevention and HTML5 Security cheat sheets (from
 * memory).
 */
public final class Doorkeeper {
  /** Header that carries the token. */
  public static final String TOKEN_HEADER = "X-Snick-Token";

  /** Cookie that carries the token of a page that is served beyond loopback. */
  public static final String COOKIE = "snick-token";

  private static final List<String> LOOPBACK_NAMES = List.of("localhost", "127.0.0.1", "[::1]");
  private static final Set<String> READING = Set.of("GET", "HEAD");

  private final List<String> names;
  private final PageToken token;
  private final boolean beyondLoopback;

  /**
   * A doorkeeper.
   *
   * @param furtherNames host names that are answered besides those of loopback
   * @param beyondLoopback whether other machines can connect: then reading needs the token too
   */
  public Doorkeeper(List<String> furtherNames, PageToken token, boolean beyondLoopback) {
    this.names = new ArrayList<>(LOOPBACK_NAMES);
    furtherNames.forEach(name -> names.add(name.toLowerCase(Locale.ROOT)));
    this.token = token;
    this.beyondLoopback = beyondLoopback;
  }

  /** Why {@code head} is refused; empty if it may pass. */
  public Optional<HttpAnswer.Problem> refuse(Request head) {
    if (!namedHere(head)) {
      return Optional.of(HttpAnswer.problem(403, "door.names", "names", String.join(", ", names)));
    }
    if (!READING.contains(head.method()) && !head.method().equals("POST")) {
      return Optional.of(HttpAnswer.problem(405, "door.get_or_post"));
    }
    if (beyondLoopback && !holdsToken(head)) {
      return Optional.of(HttpAnswer.problem(403, "door.holds_the_token"));
    }
    return READING.contains(head.method()) ? Optional.empty() : refuseChange(head);
  }

  private Optional<HttpAnswer.Problem> refuseChange(Request head) {
    if (!fromSamePage(head)) {
      return Optional.of(HttpAnswer.problem(403, "door.another_page"));
    }
    if (!hasType(head)) {
      return Optional.of(
          HttpAnswer.problem(
              415, "door.send_as", "type", head.isPhoto() ? "image/jpeg" : "application/json"));
    }
    if (head.one(TOKEN_HEADER).filter(token::matches).isEmpty()) {
      return Optional.of(HttpAnswer.problem(403, "door.old_token", "header", TOKEN_HEADER));
    }
    return Optional.empty();
  }

  private boolean namedHere(Request head) {
    return head.one("Host").map(Doorkeeper::nameOf).filter(names::contains).isPresent();
  }

  /** Host without port; a name is compared exactly, so no trailing dot passes. */
  private static String nameOf(String host) {
    return host.toLowerCase(Locale.ROOT).replaceFirst(":\\d{1,5}$", "");
  }

  /** Host was checked before, so an origin equal to it is this page. */
  private static boolean fromSamePage(Request head) {
    List<String> origins = head.all("Origin");
    String here = "http://" + head.one("Host").orElse("").toLowerCase(Locale.ROOT);
    boolean origin = origins.isEmpty() || origins.equals(List.of(here));
    List<String> sites = head.all("Sec-Fetch-Site");
    boolean site = sites.isEmpty() || sites.equals(List.of("same-origin"));
    return origin && site;
  }

  /** None of these goes over from a page elsewhere without being asked for first. */
  private static boolean hasType(Request head) {
    String type = head.one("Content-Type").orElse("").toLowerCase(Locale.ROOT);
    if (head.isPhoto()) {
      return type.equals("image/jpeg") || type.equals("image/png");
    }
    return type.equals("application/json") || type.startsWith("application/json;");
  }

  private boolean holdsToken(Request head) {
    return head.one(TOKEN_HEADER)
        .or(() -> cookie(head))
        .or(() -> head.path().equals("/") ? head.parameter("token") : Optional.empty())
        .filter(token::matches)
        .isPresent();
  }

  private static Optional<String> cookie(Request head) {
    return head.all("Cookie").stream()
        .flatMap(line -> List.of(line.split(";")).stream())
        .map(String::strip)
        .filter(pair -> pair.startsWith(COOKIE + "="))
        .map(pair -> pair.substring(COOKIE.length() + 1))
        .findFirst();
  }
}
