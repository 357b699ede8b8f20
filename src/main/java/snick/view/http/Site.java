package snick.view.http;

import java.util.Optional;
import snick.phrase.Words;

/** What a server serves. Called on the server's threads, several at once. */
public interface Site {
  /** Why a request is refused before its body is read; empty if it may pass. */
  Optional<HttpAnswer.Problem> refuse(Request head);

  /** The answer to a whole request that was not refused. */
  HttpAnswer answer(Request whole);

  /** The language that refusals are told in. */
  Words words();
}
