package snick.exchange.write;

import static snick.quantity.Attribute.Type.LONG;
import static snick.quantity.Attribute.Type.REAL;
import static snick.quantity.Attribute.Type.TEXT;
import static snick.quantity.Attribute.Type.TIME;
import static snick.quantity.Attribute.Type.TRUTH;
import static snick.quantity.Attribute.Type.WHOLE;

import java.util.AbstractList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import snick.cut.Trace;
import snick.exchange.json.RigJson;
import snick.exchange.table.BeforeRow;
import snick.exchange.table.ParquetColumn;
import snick.force.budget.BudgetTerm;
import snick.force.budget.Calibration;
import snick.force.reading.RigSetting;
import snick.journal.Blade;
import snick.journal.FilamentLot;
import snick.journal.LotFigure;
import snick.journal.Session;
import snick.journal.Stage;
import snick.quantity.Attribute;
import snick.store.database.UtcNanos;
import snick.store.record.CutForce;
import snick.store.record.CutPlace;
import snick.store.record.CutSummary;
import snick.store.record.Derivation;
import snick.store.record.StoredCut;

/** The tables of a pool: their columns. Every row has its contributor by the folder it lies in. */
final class Pool {
  /** A recording's start: with contributor and rig, its key. */
  private static final String STARTED = "recording_started_utc_ns";

  /**
   * A cut to be written.
   *
   * @param startedNanos start of its recording, ns since 1970
   * @param cut the cut with its trace
   * @param session its session, if it has a place
   * @param licence name of its licence; empty if none
   */
  record CutRow(
      long startedNanos, StoredCut cut, Optional<Session> session, Optional<String> licence) {
    CutSummary summary() {
      return cut.summary();
    }

    Trace trace() {
      return cut.trace();
    }
  }

  /** A stage of a session, with the blade and the filament it was cut with. */
  record StageRow(Session session, Stage stage, Optional<Blade> blade, Optional<FilamentLot> lot) {}

  static final List<ParquetColumn<CutRow>> CUTS = cuts(Derivation.ATTRIBUTES, CutForce.ATTRIBUTES);

  static final List<ParquetColumn<CutRow>> TRACES = traces();

  static final List<ParquetColumn<RigJson.Item>> RECORDINGS =
      List.of(
          ParquetColumn.of(STARTED, LONG, item -> UtcNanos.of(item.recording().startedAt())),
          ParquetColumn.of("firmware", TEXT, item -> item.recording().firmware()),
          ParquetColumn.of("form", TEXT, item -> item.recording().form().word()),
          ParquetColumn.of("gain", WHOLE, item -> item.recording().gain()),
          ParquetColumn.of(
              "nominal_rate_hz",
              REAL,
              "Hz",
              item -> item.recording().nominalRate().map(rate -> rate.hertz())),
          ParquetColumn.of("decimals", WHOLE, item -> item.recording().decimals()),
          ParquetColumn.of(
              "device_zero", TIME, item -> item.clock().map(clock -> clock.deviceZero())),
          ParquetColumn.of(
              "rate_error_ppm",
              REAL,
              "ppm",
              item -> item.clock().map(clock -> clock.rateErrorPpm())));

  static final List<ParquetColumn<Calibration>> CALIBRATIONS =
      List.of(
          ParquetColumn.of("calibration", TEXT, Calibration::id),
          ParquetColumn.of("rig", TEXT, c -> c.boundTo().map(RigSetting::deviceId)),
          ParquetColumn.of("gain", WHOLE, c -> c.boundTo().map(RigSetting::gain)),
          ParquetColumn.of(
              "nominal_rate_hz", REAL, "Hz", c -> c.boundTo().map(r -> r.nominalRate().hertz())),
          ParquetColumn.of("polarity", WHOLE, c -> c.boundTo().map(RigSetting::polarity)),
          ParquetColumn.of("made", TIME, Calibration::made),
          ParquetColumn.of("valid_for_s", REAL, "s", c -> c.validFor().map(d -> d.toNanos() / 1e9)),
          ParquetColumn.list(
              "coefficients", REAL, "counts/N^i, i from 0", c -> reals(c.curve().coefficients())),
          ParquetColumn.list(
              "covariance",
              REAL,
              "counts^2/N^(i+j), row by row",
              c -> Arrays.stream(c.curve().covariance()).flatMap(r -> reals(r).stream()).toList()),
          ParquetColumn.of("degrees_of_freedom", REAL, c -> c.curve().degreesOfFreedom()),
          ParquetColumn.of("from_n", REAL, "N", c -> c.range().from().newtons()),
          ParquetColumn.of("to_n", REAL, "N", c -> c.range().to().newtons()),
          terms("term_source", TEXT, "", t -> t.source().word()),
          terms("term_distribution", TEXT, "", t -> t.distribution().word()),
          terms("term_absolute_n", REAL, "N", t -> t.absolute().newtons()),
          terms("term_relative", REAL, "", BudgetTerm::relative),
          terms("term_degrees_of_freedom", REAL, "", BudgetTerm::degreesOfFreedom));

  static final List<ParquetColumn<StageRow>> STAGES = stages();

  private Pool() {}

  private static List<ParquetColumn<StageRow>> stages() {
    Stream<ParquetColumn<StageRow>> noted =
        Stream.of(
            ParquetColumn.of("session", TEXT, row -> row.session().name()),
            ParquetColumn.of("opened", TIME, row -> row.session().opened()),
            ParquetColumn.of("closed", TIME, row -> row.session().closed()),
            ParquetColumn.of("stage_number", WHOLE, row -> row.stage().order()),
            ParquetColumn.of("stage", TEXT, row -> row.stage().name()),
            ParquetColumn.of("blade", TEXT, row -> row.session().blade()),
            ParquetColumn.of("steel", TEXT, row -> row.blade().map(Blade::steel)),
            blade("hardness_hrc", "HRC", Blade::hardnessHrc),
            blade("edge_angle_degrees", "degrees", Blade::edgeAngleDegrees),
            blade("thickness_behind_edge_mm", "mm", Blade::thicknessBehindEdgeMm),
            blade("edge_length_mm", "mm", Blade::edgeLengthMm),
            ParquetColumn.of("lot", TEXT, row -> row.session().equipment().filamentLot()),
            ParquetColumn.of("lot_material", TEXT, row -> row.lot().map(FilamentLot::material)),
            ParquetColumn.of("room_celsius", REAL, "°C", row -> row.session().roomCelsius()),
            ParquetColumn.of("calibration", TEXT, row -> row.session().equipment().calibration()));
    Stream<ParquetColumn<StageRow>> figures =
        Arrays.stream(LotFigure.values())
            .map(
                figure ->
                    ParquetColumn.of(
                        "lot_" + figure.key(),
                        REAL,
                        figure.unit(),
                        row -> row.lot().map(lot -> lot.figure(figure))));
    return Stream.concat(noted, figures).toList();
  }

  static List<ParquetColumn<CutRow>> cuts(
      List<Attribute<Derivation>> derived, List<Attribute<CutForce>> forces) {
    Stream<ParquetColumn<CutRow>> placed =
        Stream.of(
            ParquetColumn.of(STARTED, LONG, CutRow::startedNanos),
            ParquetColumn.of("number", WHOLE, row -> row.summary().number()),
            ParquetColumn.of("occurred_at", TIME, row -> row.summary().occurredAt()),
            ParquetColumn.of("session", TEXT, row -> row.session().map(Session::name)),
            ParquetColumn.of("stage_number", WHOLE, row -> place(row).map(p -> p.stage().order())),
            ParquetColumn.of("stage", TEXT, row -> place(row).map(p -> p.stage().name())),
            ParquetColumn.of("blade", TEXT, row -> row.session().map(Session::blade)),
            ParquetColumn.of(
                "lot", TEXT, row -> row.session().flatMap(s -> s.equipment().filamentLot())),
            ParquetColumn.of("place_mm", REAL, "mm", row -> place(row).map(CutPlace::placeMm)),
            ParquetColumn.of("set_aside", TRUTH, row -> row.summary().setAside().isPresent()),
            ParquetColumn.of(
                "calibration", TEXT, row -> row.summary().force().map(CutForce::calibrationId)),
            ParquetColumn.of("samples", WHOLE, row -> row.summary().samples()),
            ParquetColumn.of("licence", TEXT, CutRow::licence));
    Stream<Attribute<CutRow>> found =
        Stream.concat(
            derived.stream().map(a -> a.of(row -> row.summary().result())),
            forces.stream().map(a -> a.ofSome(row -> row.summary().force())));
    return Stream.concat(placed, found.map(ParquetColumn::of)).toList();
  }

  private static List<ParquetColumn<CutRow>> traces() {
    Stream<ParquetColumn<CutRow>> samples =
        Stream.of(
            ParquetColumn.of(STARTED, LONG, CutRow::startedNanos),
            ParquetColumn.of("number", WHOLE, row -> row.summary().number()),
            ParquetColumn.list("t_ns", LONG, "ns", row -> each(row, row.trace()::deviceNanos)),
            ParquetColumn.list("counts", WHOLE, "counts", row -> each(row, row.trace()::counts)),
            ParquetColumn.list("overrange", WHOLE, "", Pool::overrange));
    Stream<Attribute<CutRow>> before =
        BeforeRow.ATTRIBUTES.stream()
            .map(a -> a.named("before_" + a.name()).ofSome(row -> row.trace().before()));
    return Stream.concat(samples, before.map(ParquetColumn::of)).toList();
  }

  private static Optional<CutPlace> place(CutRow row) {
    return row.summary().place();
  }

  private static ParquetColumn<StageRow> blade(
      String name, String unit, Function<Blade, OptionalDouble> value) {
    return ParquetColumn.of(name, REAL, unit, row -> row.blade().map(value));
  }

  private static ParquetColumn<Calibration> terms(
      String name, Attribute.Type type, String unit, Function<BudgetTerm, ?> value) {
    return ParquetColumn.list(
        name, type, unit, c -> c.terms().stream().<Object>map(value).toList());
  }

  private static List<Double> reals(double... values) {
    return Arrays.stream(values).boxed().toList();
  }

  private static List<?> each(CutRow row, IntFunction<?> value) {
    return new AbstractList<Object>() {
      @Override
      public Object get(int sample) {
        return value.apply(sample);
      }

      @Override
      public int size() {
        return row.trace().size();
      }
    };
  }

  private static List<?> overrange(CutRow row) {
    return IntStream.range(0, row.trace().size()).filter(row.trace()::overrange).boxed().toList();
  }
}
