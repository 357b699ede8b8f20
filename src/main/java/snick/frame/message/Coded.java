package snick.frame.message;

import java.util.Optional;

/** One of a few meanings that a byte on the wire can have. */
interface Coded {
  /** The byte that stands for it on the wire. */
  int code();

  /** The one that a byte stands for; empty if it stands for none of them. */
  static <M extends Coded> Optional<M> ofCode(int code, M[] meanings) {
    for (M meaning : meanings) {
      if (meaning.code() == code) {
        return Optional.of(meaning);
      }
    }
    return Optional.empty();
  }
}
