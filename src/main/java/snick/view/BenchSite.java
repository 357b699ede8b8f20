package snick.view;

import java.util.Map;
import java.util.Optional;
import snick.phrase.Words;
import snick.view.http.Doorkeeper;
import snick.view.http.HttpAnswer;
import snick.view.http.PageToken;
import snick.view.http.Request;
import snick.view.http.Site;

/**
 * The page's files and the routes for programs behind the doorkeeper.
 *
 * @param beyondLoopback whether the first request carries the token and is given a cookie for it
 */
record BenchSite(
    Doorkeeper doorkeeper,
    PageFiles files,
    Routes routes,
    PageToken token,
    boolean beyondLoopback,
    Words words)
    implements Site {
  @Override
  public Optional<HttpAnswer.Problem> refuse(Request head) {
    return doorkeeper.refuse(head);
  }

  @Override
  public HttpAnswer answer(Request whole) {
    if (beyondLoopback && whole.path().equals("/") && whole.parameter("token").isPresent()) {
      return withCookie();
    }
    return routes
        .answer(whole)
        .or(() -> files.find(whole.path()).map(file -> (HttpAnswer) file))
        .orElseGet(() -> HttpAnswer.problem(404, "door.nothing_here"));
  }

  /** The token leaves the address line, so that it stays out of histories and pictures. */
  private HttpAnswer.Whole withCookie() {
    return new HttpAnswer.Whole(
        303,
        Map.of(
            "Location",
            "/",
            "Set-Cookie",
            Doorkeeper.COOKIE + "=" + token.text() + "; HttpOnly; SameSite=Strict; Path=/"),
        new byte[0]);
  }
}
