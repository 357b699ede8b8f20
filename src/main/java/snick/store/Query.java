package snick.store;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.function.Function;

/** One statement with its parameters given in order. Used once, at once. */
final class Query {
  private final Database database;
  private final PreparedStatement statement;
  private int bound;

  Query(Database database, PreparedStatement statement) {
    this.database = database;
    this.statement = statement;
  }

  Query whole(long value) {
    return bind(i -> statement.setLong(i, value));
  }

  Query whole(OptionalLong value) {
    return value.isPresent() ? whole(value.getAsLong()) : nothing();
  }

  Query whole(OptionalInt value) {
    return value.isPresent() ? whole(value.getAsInt()) : nothing();
  }

  Query truth(boolean value) {
    return whole(value ? 1 : 0);
  }

  Query real(double value) {
    return bind(i -> statement.setDouble(i, value));
  }

  Query real(OptionalDouble value) {
    return value.isPresent() ? real(value.getAsDouble()) : nothing();
  }

  Query text(String value) {
    return bind(i -> statement.setString(i, value));
  }

  Query text(Optional<String> value) {
    return value.isPresent() ? text(value.get()) : nothing();
  }

  Query blob(byte[] value) {
    return bind(i -> statement.setBytes(i, value));
  }

  Query instant(Instant value) {
    return whole(UtcNanos.of(value));
  }

  Query instant(Optional<Instant> value) {
    return value.isPresent() ? instant(value.get()) : nothing();
  }

  Query nothing() {
    return bind(i -> statement.setNull(i, java.sql.Types.NULL));
  }

  /** Runs a change; the number of rows it changed. */
  int change() {
    try {
      return statement.executeUpdate();
    } catch (SQLException e) {
      throw database.failed(e);
    }
  }

  /**
   * Runs an insertion that returns {@code id}; empty if nothing was inserted. To the end: a broken
   * reference is told only there.
   */
  OptionalLong insertedId() {
    return list(row -> row.whole("id")).stream().mapToLong(Long::longValue).findFirst();
  }

  /** Every row, mapped. */
  <T> List<T> list(Function<Row, T> mapper) {
    try (ResultSet rows = statement.executeQuery()) {
      Row row = new Row(rows, database.failures());
      List<T> found = new ArrayList<>();
      while (rows.next()) {
        found.add(mapper.apply(row));
      }
      return found;
    } catch (SQLException e) {
      throw database.failed(e);
    }
  }

  /** The first row, mapped. */
  <T> Optional<T> first(Function<Row, T> mapper) {
    try (ResultSet rows = statement.executeQuery()) {
      return rows.next()
          ? Optional.of(mapper.apply(new Row(rows, database.failures())))
          : Optional.empty();
    } catch (SQLException e) {
      throw database.failed(e);
    }
  }

  private Query bind(Binding binding) {
    try {
      bound++;
      binding.bind(bound);
      return this;
    } catch (SQLException e) {
      throw database.failed(e);
    }
  }

  @FunctionalInterface
  private interface Binding {
    void bind(int index) throws SQLException;
  }
}
