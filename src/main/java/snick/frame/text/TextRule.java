package snick.frame.text;

/** By what rule text lines are read. */
public sealed interface TextRule {
  /** As firmware-protocol.md asks of a device: {@code counts} or {@code micros,counts}. */
  record AsProtocol() implements TextRule {}

  /** By what the first lines show; what cannot be told apart safely is refused. */
  record FoundOut() implements TextRule {}

  /** The same, whatever was found out before. */
  record FoundOutAnew() implements TextRule {}

  /** Whether the columns are found out. */
  default boolean findsOut() {
    return this instanceof FoundOut || this instanceof FoundOutAnew;
  }

  /** By the columns that a person named. */
  record Named(Columns columns) implements TextRule {}
}
