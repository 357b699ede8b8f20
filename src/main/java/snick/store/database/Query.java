package snick.store.database;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.function.Function;
import java.util.stream.Collectors;
import snick.phrase.Phrase;
import snick.quantity.Attribute;

/** One statement with its parameters given in order. Used once, at once. */
public final class Query {
  private final Database database;
  private final PreparedStatement statement;
  private int bound;

  Query(Database database, PreparedStatement statement) {
    this.database = database;
    this.statement = statement;
  }

  public Query whole(long value) {
    return bind(at -> statement.setLong(at, value));
  }

  public Query whole(OptionalLong value) {
    return value.isPresent() ? whole(value.getAsLong()) : nothing();
  }

  public Query whole(OptionalInt value) {
    return value.isPresent() ? whole(value.getAsInt()) : nothing();
  }

  public Query truth(boolean value) {
    return whole(value ? 1 : 0);
  }

  public Query real(double value) {
    return bind(at -> statement.setDouble(at, value));
  }

  public Query real(OptionalDouble value) {
    return value.isPresent() ? real(value.getAsDouble()) : nothing();
  }

  public Query text(String value) {
    return bind(at -> statement.setString(at, value));
  }

  public Query text(Optional<String> value) {
    return value.isPresent() ? text(value.get()) : nothing();
  }

  /** Names of the columns in which attributes are kept. */
  public static List<String> columns(List<? extends Attribute<?>> attributes) {
    return attributes.stream()
        .map(a -> a.type() == Attribute.Type.SECONDS ? nanos(a.name()) : a.name())
        .toList();
  }

  static String nanos(String name) {
    return name.substring(0, name.length() - "_s".length()) + "_ns";
  }

  /** Gives the values of {@code of} in the order of {@link #columns}. */
  public <T> Query values(List<Attribute<T>> attributes, T of) {
    attributes.forEach(a -> a.value(of).ifPresentOrElse(v -> value(a.type(), v), this::nothing));
    return this;
  }

  private void value(Attribute.Type type, Object value) {
    switch (type) {
      case WHOLE, LONG, SECONDS -> whole(((Number) value).longValue());
      case REAL -> real((Double) value);
      case TRUTH -> truth((Boolean) value);
      case TIME -> instant((Instant) value);
      case TEXT -> text((String) value);
      case WORDS ->
          text(((List<?>) value).stream().map(String::valueOf).collect(Collectors.joining(" ")));
    }
  }

  public Query blob(byte[] value) {
    return bind(at -> statement.setBytes(at, value));
  }

  public Query instant(Instant value) {
    return whole(UtcNanos.of(value));
  }

  public Query instant(Optional<Instant> value) {
    return value.isPresent() ? instant(value.get()) : nothing();
  }

  /** Gives a parameter at its place. */
  @FunctionalInterface
  private interface Binding {
    void at(int place) throws SQLException;
  }

  private Query bind(Binding binding) {
    try {
      binding.at(++bound);
      return this;
    } catch (SQLException e) {
      throw database.failed(e);
    }
  }

  Query nothing() {
    return bind(at -> statement.setNull(at, Types.NULL));
  }

  /** Runs a change; the number of rows it changed. */
  public int change() {
    try {
      int rows = statement.executeUpdate();
      database.sums().writeIfMany();
      return rows;
    } catch (SQLException e) {
      throw database.failed(e);
    }
  }

  /** The mapped row; one that is nothing of what this program writes is damage. */
  private <T> T mapped(Function<Row, T> mapper, ResultSet rows) {
    try {
      return mapper.apply(new Row(rows, database.failures()));
    } catch (IllegalArgumentException
        | ArithmeticException
        | DateTimeException
        | NullPointerException e) {
      throw database
          .failures()
          .damaged(Phrase.of("store.row_not_as_written", "what", String.valueOf(e.getMessage())));
    }
  }

  /**
   * Runs an insertion of one row; its id. Cheaper than RETURNING, which fills a table on the way.
   */
  public long insertedId() {
    change();
    return database.lastInsertedId();
  }

  /**
   * Runs an insertion that leaves alone what is there already; the new row's id, if there is one.
   */
  public OptionalLong insertedIdIfNew() {
    return change() == 0 ? OptionalLong.empty() : OptionalLong.of(database.lastInsertedId());
  }

  /** Every row, mapped. */
  public <T> List<T> list(Function<Row, T> mapper) {
    try (ResultSet rows = statement.executeQuery()) {
      List<T> found = new ArrayList<>();
      while (rows.next()) {
        found.add(mapped(mapper, rows));
      }
      return found;
    } catch (SQLException e) {
      throw database.failed(e);
    }
  }

  /** The first row, mapped. */
  public <T> Optional<T> first(Function<Row, T> mapper) {
    try (ResultSet rows = statement.executeQuery()) {
      return rows.next() ? Optional.of(mapped(mapper, rows)) : Optional.empty();
    } catch (SQLException e) {
      throw database.failed(e);
    }
  }
}
