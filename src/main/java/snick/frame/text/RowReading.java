package snick.frame.text;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * Tells what the columns of rows of one shape hold: by names and units where there are some, else
 * by their numbers.
 */
final class RowReading {
  private static final double LEAST_RAW_COUNTS = 1000;
  private static final long HIGHEST_CODE = (1 << 23) - 1;

  private final List<List<SampleField>> rows;
  private final byte separator;
  private final List<ColumnName> names;
  private final List<SampleField> shape;

  RowReading(List<List<SampleField>> rows, List<String> heading, byte separator) {
    this.rows = rows;
    this.separator = separator;
    this.shape = rows.get(0);
    this.names = IntStream.range(0, shape.size()).mapToObj(i -> name(i, heading)).toList();
  }

  private ColumnName name(int column, List<String> heading) {
    ColumnName unit = ColumnName.of(shape.get(column).words());
    return unit != ColumnName.NONE || heading.isEmpty() ? unit : ColumnName.of(heading.get(column));
  }

  ColumnsTold told() {
    OptionalInt timeAt = timeAt();
    if (timeAt.isEmpty()) {
      return withTime(shape.size(), Column.OTHER);
    }
    Optional<Column> unit = unit(timeAt.getAsInt());
    return unit.map(column -> withTime(timeAt.getAsInt(), column))
        .orElseGet(() -> doubtfulTime(timeAt.getAsInt()));
  }

  private ColumnsTold doubtfulTime(int timeAt) {
    List<String> options = new ArrayList<>();
    for (Column column : List.of(Column.TIME_US, Column.TIME_MS, Column.TIME_S, Column.OTHER)) {
      options.addAll(withTime(timeAt, column).options());
    }
    return ColumnsTold.unknown(
        "column %s rises by %s a line, which is no time of a rig in s, ms or µs"
            .formatted(timeAt + 1, SampleSteps.of(numbers(timeAt)).words()),
        options);
  }

  /** The time: named so, or a time of day, or the first column without a name that rises evenly. */
  private OptionalInt timeAt() {
    OptionalInt named =
        IntStream.range(0, shape.size())
            .filter(
                i ->
                    shape.get(i).kind() == LineFields.Kind.TIME
                        || (shape.get(i).isNumber() && names.get(i).isTime()))
            .findFirst();
    if (named.isPresent() || numberColumns() < 2) {
      return named;
    }
    List<Integer> rising =
        IntStream.range(0, shape.size())
            .filter(i -> shape.get(i).isNumber() && names.get(i) == ColumnName.NONE)
            .filter(i -> SampleSteps.of(numbers(i)).rising())
            .boxed()
            .toList();
    return rising.stream()
        .filter(i -> unit(i).isPresent())
        .findFirst()
        .or(() -> rising.stream().findFirst())
        .map(OptionalInt::of)
        .orElse(OptionalInt.empty());
  }

  private long numberColumns() {
    return shape.stream().filter(SampleField::isNumber).count();
  }

  private List<Double> numbers(int column) {
    return rows.stream().map(row -> row.get(column).number()).toList();
  }

  /** The unit of a time; empty if it cannot be told. */
  private Optional<Column> unit(int timeAt) {
    if (shape.get(timeAt).kind() == LineFields.Kind.TIME) {
      return Optional.of(Column.TIME);
    }
    SampleSteps steps = SampleSteps.of(numbers(timeAt));
    return switch (names.get(timeAt)) {
      case MICROSECONDS -> steps.ifRising(Column.TIME_US);
      case MILLISECONDS -> steps.ifRising(Column.TIME_MS);
      case SECONDS -> steps.ifRising(Column.TIME_S);
      default -> steps.unit(names.get(timeAt) == ColumnName.TIME);
    };
  }

  private ColumnsTold withTime(int timeAt, Column time) {
    List<Integer> candidates =
        IntStream.range(0, shape.size())
            .filter(i -> i != timeAt && shape.get(i).isNumber())
            .filter(i -> names.get(i) != ColumnName.OTHER && !names.get(i).isTime())
            .filter(i -> !SampleSteps.of(numbers(i)).countsLines())
            .boxed()
            .toList();
    List<Integer> raws = named(candidates, ColumnName.COUNTS);
    if (raws.isEmpty() && maybeDecimalComma(timeAt)) {
      return ColumnsTold.unknown(
          "the comma may be a decimal comma, or stand between two columns",
          List.of("counts", "g", "counts,-", "-,counts"));
    }
    List<Integer> forces = candidates.stream().filter(i -> force(i) != Column.COUNTS).toList();
    if (raws.size() == 1) {
      return reading(timeAt, time, raws.get(0), Column.COUNTS, true);
    }
    List<Integer> unnamed = candidates.stream().filter(i -> !forces.contains(i)).toList();
    List<Integer> large = unnamed.stream().filter(this::looksRaw).toList();
    if (raws.isEmpty() && forces.size() == 1 && unnamed.isEmpty()) {
      return reading(timeAt, time, forces.get(0), force(forces.get(0)), true);
    }
    if (raws.isEmpty() && forces.isEmpty() && unnamed.size() == 1) {
      return single(timeAt, time, unnamed.get(0));
    }
    if (raws.isEmpty() && large.size() == 1 && noOtherWhole(candidates, large.get(0))) {
      return reading(timeAt, time, large.get(0), Column.COUNTS, false);
    }
    return ColumnsTold.unknown(
        candidates.isEmpty()
            ? "no column looks like a reading"
            : "columns " + places(candidates) + " may each be the reading",
        candidates.stream().map(i -> columns(timeAt, time, i, force(i)).words()).toList());
  }

  private boolean maybeDecimalComma(int timeAt) {
    return separator == ','
        && shape.size() == 2
        && timeAt == shape.size()
        && shape.get(0).isWhole()
        && shape.get(1).digitsOnly()
        && !shape.get(1).spaced();
  }

  private static String places(List<Integer> columns) {
    return columns.stream().map(i -> Integer.toString(i + 1)).collect(Collectors.joining(" and "));
  }

  private List<Integer> named(List<Integer> columns, ColumnName name) {
    return columns.stream().filter(i -> names.get(i) == name).toList();
  }

  private Column force(int column) {
    return switch (names.get(column)) {
      case GRAMS -> Column.GRAMS;
      case KILOGRAMS -> Column.KILOGRAMS;
      case NEWTONS -> Column.NEWTONS;
      case MILLINEWTONS -> Column.MILLINEWTONS;
      default -> Column.COUNTS;
    };
  }

  private boolean looksRaw(int column) {
    List<Double> sizes = new ArrayList<>(numbers(column).stream().map(Math::abs).toList());
    Collections.sort(sizes);
    return isWhole(column) && sizes.get(sizes.size() / 2) >= LEAST_RAW_COUNTS;
  }

  private boolean isWhole(int column) {
    return rows.stream().allMatch(row -> row.get(column).isWhole());
  }

  private boolean noOtherWhole(List<Integer> candidates, int column) {
    return candidates.stream().noneMatch(i -> i != column && isWhole(i));
  }

  /** The only reading: a few things that it may be besides are told by its numbers. */
  private ColumnsTold single(int timeAt, Column time, int column) {
    if (isWhole(column) && numbers(column).stream().allMatch(value -> value > HIGHEST_CODE)) {
      return beyondTheRange(timeAt, time, column);
    }
    boolean sure = names.get(column) != ColumnName.NONE || timeAt == shape.size();
    return reading(timeAt, time, column, Column.COUNTS, sure);
  }

  private ColumnsTold beyondTheRange(int timeAt, Column time, int column) {
    return ColumnsTold.unknown(
        "readings lie beyond "
            + HIGHEST_CODE
            + ", the highest code of 24 bits: offset binary, or a sign that was not extended",
        List.of(
            columns(timeAt, time, column, Column.OFFSET24).words(),
            columns(timeAt, time, column, Column.UNSIGNED24).words()));
  }

  private ColumnsTold reading(
      int timeAt, Column time, int readingAt, Column reading, boolean named) {
    Columns columns = columns(timeAt, time, readingAt, reading);
    boolean timeSure =
        timeAt == shape.size() || time == Column.TIME || names.get(timeAt) != ColumnName.NONE;
    boolean sure = named && timeSure;
    return new ColumnsTold(
        Optional.of(columns),
        separator,
        bare(timeAt),
        sure,
        reason(timeAt, readingAt),
        List.of(columns.words()));
  }

  private boolean bare(int timeAt) {
    return shape.stream().allMatch(field -> field.words().isBlank())
        && (timeAt == shape.size() || isWhole(timeAt));
  }

  private String reason(int timeAt, int readingAt) {
    List<String> reasons = new ArrayList<>();
    if (timeAt < shape.size() && shape.get(timeAt).kind() != LineFields.Kind.TIME) {
      reasons.add(
          "column %s rises by %s a line"
              .formatted(timeAt + 1, SampleSteps.of(numbers(timeAt)).words()));
    }
    ColumnName name = names.get(readingAt);
    reasons.add(
        "column "
            + (readingAt + 1)
            + (name == ColumnName.NONE ? " holds " : " is named, and holds ")
            + (isWhole(readingAt) ? "whole numbers" : "decimals")
            + (force(readingAt) == Column.COUNTS && !isWhole(readingAt)
                ? " of a unit that is not said"
                : ""));
    return String.join("; ", reasons);
  }

  private Columns columns(int timeAt, Column time, int readingAt, Column reading) {
    List<Column> columns = new ArrayList<>(Collections.nCopies(shape.size(), Column.OTHER));
    columns.set(readingAt, reading);
    if (timeAt < shape.size()) {
      columns.set(timeAt, time);
    }
    return new Columns(columns);
  }
}
