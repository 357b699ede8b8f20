package snick.exchange.table;

import static org.apache.parquet.schema.LogicalTypeAnnotation.TimeUnit.MICROS;
import static org.apache.parquet.schema.LogicalTypeAnnotation.stringType;
import static org.apache.parquet.schema.LogicalTypeAnnotation.timestampType;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.BINARY;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.BOOLEAN;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.DOUBLE;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.INT32;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.INT64;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.apache.parquet.io.api.Binary;
import org.apache.parquet.io.api.RecordConsumer;
import org.apache.parquet.schema.LogicalTypeAnnotation;
import org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName;
import org.apache.parquet.schema.Type;
import org.apache.parquet.schema.Types;

/**
 * One column of a Parquet table.
 *
 * @param <R> what a row is made of
 * @param name name
 * @param kind type of a value
 * @param list whether a row has a list of them
 * @param unit unit, empty if it has none
 * @param value the value of a row, a {@link List} if {@code list}; empty for none
 */
public record ParquetColumn<R>(
    String name, Kind kind, boolean list, String unit, Function<R, Optional<?>> value) {
  private static final String REPEATED = "list";
  private static final String ELEMENT = "element";

  /** Types of values. */
  public enum Kind {
    /** {@link Long}. */
    LONG(INT64),
    /** {@link Integer}. */
    WHOLE(INT32),
    /** {@link Double}. */
    REAL(DOUBLE),
    /** {@link Boolean}. */
    TRUTH(BOOLEAN),
    /** {@link String}. */
    TEXT(BINARY),
    /** {@link Instant}. */
    TIME(INT64);

    private final PrimitiveTypeName type;

    Kind(PrimitiveTypeName type) {
      this.type = type;
    }

    /** What the type stands for; null, as the format's own library has it, for just itself. */
    private LogicalTypeAnnotation meaning() {
      return this == TEXT ? stringType() : this == TIME ? timestampType(true, MICROS) : null;
    }

    private void add(Object value, RecordConsumer out) {
      switch (this) {
        case LONG -> out.addLong((Long) value);
        case WHOLE -> out.addInteger((Integer) value);
        case REAL -> out.addDouble((Double) value);
        case TRUTH -> out.addBoolean((Boolean) value);
        case TEXT -> out.addBinary(Binary.fromString((String) value));
        case TIME -> out.addLong(ChronoUnit.MICROS.between(Instant.EPOCH, (Instant) value));
      }
    }
  }

  /** A column of one value a row. */
  public static <R> ParquetColumn<R> of(String name, Kind kind, Function<R, ?> value) {
    return new ParquetColumn<>(name, kind, false, "", row -> Optional.of(value.apply(row)));
  }

  /** A column of at most one value a row. */
  public static <R> ParquetColumn<R> some(
      String name, Kind kind, String unit, Function<R, Optional<?>> value) {
    return new ParquetColumn<>(name, kind, false, unit, value);
  }

  /** A column of a list a row. */
  public static <R> ParquetColumn<R> list(
      String name, Kind kind, String unit, Function<R, List<?>> value) {
    return new ParquetColumn<>(name, kind, true, unit, row -> Optional.of(value.apply(row)));
  }

  /** The type in the schema; a list has the three levels of the format's own rule for lists. */
  Type type() {
    return list
        ? Types.optionalList().requiredElement(kind.type).as(kind.meaning()).named(name)
        : Types.optional(kind.type).as(kind.meaning()).named(name);
  }

  /** Writes the value of a row as field {@code index}. */
  void write(R row, int index, RecordConsumer out) {
    Optional<?> found = value.apply(row);
    if (found.isEmpty()) {
      return;
    }
    out.startField(name, index);
    if (list) {
      writeList((List<?>) found.get(), out);
    } else {
      kind.add(found.get(), out);
    }
    out.endField(name, index);
  }

  private void writeList(List<?> values, RecordConsumer out) {
    out.startGroup();
    if (!values.isEmpty()) {
      out.startField(REPEATED, 0);
      for (Object value : values) {
        out.startGroup();
        out.startField(ELEMENT, 0);
        kind.add(value, out);
        out.endField(ELEMENT, 0);
        out.endGroup();
      }
      out.endField(REPEATED, 0);
    }
    out.endGroup();
  }
}
