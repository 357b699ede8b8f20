package snick.view;

import java.util.Map;
import java.util.Optional;
import snick.phrase.Words;
import snick.view.http.Answer;
import snick.view.http.Doorkeeper;
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
  public Optional<Answer.Problem> refuse(Request head) {
    return doorkeeper.refuse(head);
  }

  @Override
  public Answer answer(Request whole) {
    if (beyondLoopback && whole.path().equals("/") && whole.parameter("token").isPresent()) {
      return withCookie();
    }
    return routes
        .answer(whole)
        .or(() -> files.find(whole.path()).map(file -> (Answer) file))
        .orElseGet(() -> Answer.problem(404, "door.nothing_here"));
  }

  /** The token leaves the address line, so that it stays out of histories and pictures. */
  private Answer.Whole withCookie() {
    return new Answer.Whole(
        303,
        Map.of(
            "Location",
            "/",
            "Set-Cookie",
            Doorkeeper.COOKIE + "=" + token.text() + "; HttpOnly; SameSite=Strict; Path=/"),
        new byte[0]);
  }
}
