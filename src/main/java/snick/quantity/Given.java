package snick.quantity;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;

/** A value that may be missing, of whichever optional type. */
public final class Given {
  private Given() {}

  /** What {@code value} holds if it is an optional of any kind, else itself. */
  public static Optional<?> of(Object value) {
    if (value instanceof Optional<?> some) {
      return some.flatMap(Given::of);
    }
    if (value instanceof OptionalDouble some) {
      return some.stream().boxed().findFirst();
    }
    if (value instanceof OptionalLong some) {
      return some.stream().boxed().findFirst();
    }
    return value instanceof OptionalInt some
        ? some.stream().boxed().findFirst()
        : Optional.ofNullable(value);
  }
}
