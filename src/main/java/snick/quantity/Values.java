package snick.quantity;

import java.util.OptionalDouble;
import java.util.OptionalLong;

/**
 * Values of {@link Attribute}s by name, as they are read back: a row of the store or of a file. A
 * value that is not what its attribute says is refused with an exception of the source's own.
 */
public interface Values {
  int integer(String name);

  OptionalDouble optionalReal(String name);

  OptionalLong optionalNanos(String name);

  boolean truth(String name);

  /** Empty text if there is none. */
  String text(String name);

  /** NaN if there is none. */
  default double real(String name) {
    return optionalReal(name).orElse(Double.NaN);
  }

  /** Of an attribute that is always there, ns. */
  default long nanos(String name) {
    return optionalNanos(name).orElseThrow();
  }
}
