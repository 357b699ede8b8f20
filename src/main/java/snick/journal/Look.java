package snick.journal;

import java.util.OptionalDouble;
import snick.journal.name.Field;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/**
 * How an edge was looked at.
 *
 * @param method how
 * @param magnification 1 to 5000 times; with a magnifier it must be there, otherwise it must not
 */
public record Look(Method method, OptionalDouble magnification) {
  public Look {
    Field.within("magnification", magnification, 1, 5000, "×");
    if (magnification.isPresent() != (method == Method.MAGNIFIER)) {
      throw magnification.isPresent()
          ? new NotAccepted(
              "refused.magnification_without_magnifier", "method", Phrase.named("method", method))
          : new NotAccepted("refused.magnifier_without_magnification");
    }
  }
}
