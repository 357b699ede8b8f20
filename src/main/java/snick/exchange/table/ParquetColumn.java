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
import org.apache.parquet.schema.Types;
import snick.quantity.Attribute;

/**
 * One column of a Parquet table.
 *
 * @param <R> what a row is made of
 * @param attribute what it is; of a list each element
 * @param list whether the value of a row is a {@link List}
 */
public record ParquetColumn<R>(Attribute<R> attribute, boolean list) {
  private static final String REPEATED = "list";
  private static final String ELEMENT = "element";

  /** A column of one value a row. */
  public static <R> ParquetColumn<R> of(Attribute<R> attribute) {
    return new ParquetColumn<>(attribute, false);
  }

  /** A column of at most one value a row, without a unit. */
  public static <R> ParquetColumn<R> of(String name, Attribute.Type type, Function<R, ?> value) {
    return of(name, type, "", value);
  }

  /** A column of at most one value a row. */
  public static <R> ParquetColumn<R> of(
      String name, Attribute.Type type, String unit, Function<R, ?> value) {
    return of(Attribute.some(name, type, unit, "", value));
  }

  /** A column of a list a row. */
  public static <R> ParquetColumn<R> list(
      String name, Attribute.Type type, String unit, Function<R, List<?>> value) {
    return new ParquetColumn<>(Attribute.some(name, type, unit, "", value), true);
  }

  public String name() {
    return attribute.name();
  }

  private PrimitiveTypeName primitive() {
    return switch (attribute.type()) {
      case LONG, TIME -> INT64;
      case WHOLE -> INT32;
      case REAL, SECONDS -> DOUBLE;
      case TRUTH -> BOOLEAN;
      case TEXT, WORDS -> BINARY;
    };
  }

  /** What the type stands for; null, as the format's own library has it, for just itself. */
  private LogicalTypeAnnotation meaning() {
    return switch (attribute.type()) {
      case TEXT, WORDS -> stringType();
      case TIME -> timestampType(true, MICROS);
      default -> null;
    };
  }

  private void add(Object value, RecordConsumer out) {
    switch (attribute.type()) {
      case LONG -> out.addLong((Long) value);
      case WHOLE -> out.addInteger((Integer) value);
      case REAL -> out.addDouble((Double) value);
      case SECONDS -> out.addDouble((Long) value / 1e9);
      case TRUTH -> out.addBoolean((Boolean) value);
      case TEXT, WORDS -> out.addBinary(Binary.fromString(CellType.STRING.text(value)));
      case TIME -> out.addLong(ChronoUnit.MICROS.between(Instant.EPOCH, (Instant) value));
    }
  }

  /** The type in the schema; a list has the three levels of the format's own rule for lists. */
  org.apache.parquet.schema.Type type() {
    return list
        ? Types.optionalList().requiredElement(primitive()).as(meaning()).named(name())
        : Types.optional(primitive()).as(meaning()).named(name());
  }

  /** Writes the value of a row as field {@code index}. */
  void write(R row, int index, RecordConsumer out) {
    Optional<?> found = attribute.value(row).filter(v -> list || !List.of().equals(v));
    if (found.isEmpty()) {
      return;
    }
    out.startField(name(), index);
    if (list) {
      writeList((List<?>) found.get(), out);
    } else {
      add(found.get(), out);
    }
    out.endField(name(), index);
  }

  private void writeList(List<?> values, RecordConsumer out) {
    out.startGroup();
    if (!values.isEmpty()) {
      out.startField(REPEATED, 0);
      for (Object value : values) {
        out.startGroup();
        out.startField(ELEMENT, 0);
        add(value, out);
        out.endField(ELEMENT, 0);
        out.endGroup();
      }
      out.endField(REPEATED, 0);
    }
    out.endGroup();
  }
}
