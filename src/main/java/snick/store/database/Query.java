package snick.store.database;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import snick.phrase.Phrase;
import snick.quantity.Attribute;
import snick.quantity.Given;

/** One statement with its parameters given in order. Used once, at once. */
public final class Query {
  private static final Set<Class<?>> COLUMN_TYPES =
      Set.of(String.class, Boolean.class, Integer.class, Long.class, Double.class, byte[].class);

  private final Database database;
  private final PreparedStatement statement;
  private int bound;

  Query(Database database, PreparedStatement statement) {
    this.database = database;
    this.statement = statement;
  }

  /**
   * Gives the next parameters their values: numbers, texts, truths, bytes and times, words, or what
   * may be one of these; what is not there is NULL.
   *
   * @throws IllegalArgumentException if a value is of another kind
   */
  public Query with(Object... values) {
    try {
      for (Object value : values) {
        statement.setObject(++bound, Given.of(value).map(Query::column).orElse(null));
      }
      return this;
    } catch (SQLException e) {
      throw database.failed(e);
    }
  }

  private static Object column(Object value) {
    if (value instanceof Instant time) {
      return UtcNanos.of(time);
    }
    if (value instanceof List<?> words) {
      return words.stream().map(String::valueOf).collect(Collectors.joining(" "));
    }
    if (COLUMN_TYPES.contains(value.getClass())) {
      return value;
    }
    throw new IllegalArgumentException("no column holds a " + value.getClass().getName());
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
    attributes.forEach(attribute -> with(attribute.value(of)));
    return this;
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

  /** Whether there is a row at all. */
  public boolean any() {
    return first(row -> true).isPresent();
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
