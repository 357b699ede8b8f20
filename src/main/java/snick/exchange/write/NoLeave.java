package snick.exchange.write;

import snick.exchange.json.RefusedPackage;
import snick.store.record.Credit;

/** Others gave their work without a licence, so that nobody may pass it on under one. */
public final class NoLeave extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private NoLeave(String message) {
    super(message);
  }

  static NoLeave of(Credit source) {
    return new NoLeave(
        "some of it came in a package without a licence, '"
            + RefusedPackage.shown(source.title())
            + "', and may not go out under one of yours; leave it out (--own), or, if its sender"
            + " agreed to this licence, say so (--sender-agreed)");
  }
}
