package snick.store.database;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import snick.quantity.Values;
import snick.quantity.Worded;

/**
 * The row a query stands on. Time on a device's clock is kept in ns. Valid only inside the mapper
 * it is given to.
 */
public final class Row implements Values {
  private final ResultSet row;
  private final Failures failures;

  Row(ResultSet row, Failures failures) {
    this.row = row;
    this.failures = failures;
  }

  public long whole(String column) {
    return get(() -> row.getLong(column));
  }

  @Override
  public int integer(String column) {
    return Math.toIntExact(whole(column));
  }

  @Override
  public boolean truth(String column) {
    return whole(column) != 0;
  }

  public OptionalLong optionalWhole(String column) {
    long value = whole(column);
    return wasNull() ? OptionalLong.empty() : OptionalLong.of(value);
  }

  public OptionalInt optionalInteger(String column) {
    OptionalLong value = optionalWhole(column);
    return value.isPresent()
        ? OptionalInt.of(Math.toIntExact(value.getAsLong()))
        : OptionalInt.empty();
  }

  @Override
  public OptionalDouble optionalReal(String column) {
    double value = get(() -> row.getDouble(column));
    return wasNull() ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  @Override
  public OptionalLong optionalNanos(String name) {
    return optionalWhole(Query.nanos(name));
  }

  @Override
  public String text(String column) {
    return get(() -> row.getString(column));
  }

  public Optional<String> optionalText(String column) {
    return Optional.ofNullable(text(column));
  }

  /** The constant that is written in the column. */
  public <E extends Enum<E> & Worded> E word(String column, Class<E> type) {
    return optionalWord(column, type).orElseThrow();
  }

  /** The same, if something is written there. */
  public <E extends Enum<E> & Worded> Optional<E> optionalWord(String column, Class<E> type) {
    return optionalText(column)
        .map(
            word ->
                Worded.named(type, word)
                    .orElseThrow(() -> new IllegalArgumentException(column + " '" + word + "'")));
  }

  public byte[] blob(String column) {
    return get(() -> row.getBytes(column));
  }

  /** Every column, in order. */
  List<Object> all() {
    return get(
        () -> {
          int columns = row.getMetaData().getColumnCount();
          List<Object> values = new ArrayList<>(columns);
          for (int column = 1; column <= columns; column++) {
            values.add(row.getObject(column));
          }
          return values;
        });
  }

  public Instant instant(String column) {
    return UtcNanos.instant(whole(column));
  }

  public Optional<Instant> optionalInstant(String column) {
    OptionalLong value = optionalWhole(column);
    return value.isPresent() ? Optional.of(UtcNanos.instant(value.getAsLong())) : Optional.empty();
  }

  private boolean wasNull() {
    return get(row::wasNull);
  }

  private <T> T get(Reading<T> reading) {
    try {
      return reading.read();
    } catch (SQLException e) {
      throw failures.of(e);
    }
  }

  @FunctionalInterface
  private interface Reading<T> {
    T read() throws SQLException;
  }
}
