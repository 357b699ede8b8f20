package snick.exchange;

import static org.apache.parquet.schema.LogicalTypeAnnotation.TimeUnit.MICROS;
import static org.apache.parquet.schema.LogicalTypeAnnotation.stringType;
import static org.apache.parquet.schema.LogicalTypeAnnotation.timestampType;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.BINARY;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.BOOLEAN;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.DOUBLE;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.INT32;
import static org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName.INT64;

import blue.strategic.parquet.ParquetWriter;
import java.io.IOException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.Types;
import org.xerial.snappy.Snappy;
import org.xerial.snappy.SnappyError;
import snick.cut.Trace;
import snick.force.Calibration;
import snick.store.Recording;
import snick.store.StoreReader;
import snick.store.StoredCut;
import snick.store.Watch;

/**
 * Writes stored cuts as Parquet for engines that pool many rigs: {@code
 * cuts/rig=ID/date=2026-05-04/START.parquet} and {@code traces/…} alike, dates in UTC, START being
 * the recording's start in ns since 1970. A cut has the same key (rig, recording_started_utc_ns,
 * number) in whatever set it turns up, and its recording the same file name, so that folders of
 * many people can be laid into one. No free text goes along.
 */
public final class ParquetExport {
  private static final MessageType CUTS =
      Types.buildMessage()
          .required(INT64)
          .named("recording_started_utc_ns")
          .required(INT32)
          .named("number")
          .required(INT64)
          .as(timestampType(true, MICROS))
          .named("occurred_at")
          .required(BINARY)
          .as(stringType())
          .named("outcome")
          .required(BINARY)
          .as(stringType())
          .named("flags")
          .required(BOOLEAN)
          .named("set_aside")
          .required(INT32)
          .named("polarity")
          .required(DOUBLE)
          .named("onset_s")
          .optional(DOUBLE)
          .named("break_s")
          .optional(DOUBLE)
          .named("observed_max_counts")
          .optional(DOUBLE)
          .named("estimate_counts")
          .optional(DOUBLE)
          .named("u_estimate_counts")
          .optional(DOUBLE)
          .named("loading_rate_counts_per_s")
          .optional(DOUBLE)
          .named("zero_before_counts")
          .optional(DOUBLE)
          .named("noise_counts")
          .required(INT32)
          .named("detector_version")
          .optional(BINARY)
          .as(stringType())
          .named("response")
          .optional(BINARY)
          .as(stringType())
          .named("calibration")
          .optional(BOOLEAN)
          .named("in_range")
          .optional(DOUBLE)
          .named("force_n")
          .optional(DOUBLE)
          .named("u_force_n")
          .optional(DOUBLE)
          .named("place_mm")
          .required(INT32)
          .named("samples")
          .named("cut");

  private static final MessageType TRACES =
      Types.buildMessage()
          .required(INT64)
          .named("recording_started_utc_ns")
          .required(INT32)
          .named("number")
          .required(INT32)
          .named("sample")
          .required(INT64)
          .named("t_ns")
          .required(INT32)
          .named("counts")
          .required(BOOLEAN)
          .named("overrange")
          .optional(DOUBLE)
          .named("force_n")
          .named("sample");

  private final StoreReader store;
  private final ExportChoice choice;
  private final Watch watch;
  private long done;

  /** An export of {@code choice} from {@code store}. */
  public ParquetExport(StoreReader store, ExportChoice choice, Watch watch) {
    this.store = store;
    this.choice = choice;
    this.watch = watch;
  }

  /**
   * Writes the set as a new folder.
   *
   * @return number of cuts in it
   * @throws java.nio.file.FileAlreadyExistsException if {@code folder} exists
   * @throws IOException if it cannot be written, or the library that compresses is not there
   */
  public int toFolder(Path folder) throws IOException {
    requireCompression();
    Numbering numbering = new Numbering(store, choice);
    write(folder, numbering);
    return numbering.cuts();
  }

  /** Loads the native library, so that no other error is taken for its absence. */
  private static void requireCompression() throws IOException {
    try {
      Snappy.maxCompressedLength(1);
    } catch (SnappyError | UnsatisfiedLinkError | NoClassDefFoundError e) {
      throw new IOException(
          "the library that compresses is not there for this platform, or cannot be unpacked into "
              + System.getProperty("java.io.tmpdir")
              + " ("
              + e.getMessage()
              + "); free some space there, make it writable, or export without --parquet",
          e);
    }
  }

  private void write(Path folder, Numbering numbering) throws IOException {
    Atomically.make(
        folder,
        workshop -> {
          Path made = Files.createDirectory(workshop.resolve("set"));
          for (int recording = 1; recording <= numbering.recordingItems().size(); recording++) {
            write(made, numbering, recording);
          }
          return made;
        });
  }

  /** A cut's recording and trace, ready to become rows. */
  private record CutRow(long startedNanos, StoredCut cut) {}

  /** A sample with what its row repeats of its cut. */
  private record SampleRow(CutRow of, TraceForces forces, int sample) {}

  private void write(Path folder, Numbering numbering, int recording) throws IOException {
    Recording of = numbering.recordingItems().get(recording - 1).recording();
    long startedNanos = nanos(of.startedAt());
    Optional<LocalDate> date = Optional.empty();
    ParquetWriter<CutRow> cuts = null;
    ParquetWriter<SampleRow> traces = null;
    try {
      for (int number : numbering.cutsOf(recording)) {
        watch.check("writing", done, numbering.cuts());
        done++;
        StoredCut cut = store.cut(numbering.cutId(number)).orElseThrow();
        LocalDate day = cut.summary().occurredAt().atZone(ZoneOffset.UTC).toLocalDate();
        if (!date.equals(Optional.of(day))) {
          close(cuts, traces);
          date = Optional.of(day);
          cuts = cuts(file(folder, "cuts", of, day));
          traces = traces(file(folder, "traces", of, day));
        }
        CutRow row = new CutRow(startedNanos, cut);
        cuts.write(row);
        writeSamples(traces, row);
      }
    } finally {
      close(cuts, traces);
    }
  }

  private static void close(AutoCloseable cuts, AutoCloseable traces) throws IOException {
    try {
      if (cuts != null) {
        cuts.close();
        traces.close();
      }
    } catch (IOException | RuntimeException e) {
      throw e;
    } catch (Exception e) {
      throw new IOException(e);
    }
  }

  private static long nanos(Instant time) {
    return Math.addExact(Math.multiplyExact(time.getEpochSecond(), 1_000_000_000L), time.getNano());
  }

  private static Path file(Path folder, String table, Recording of, LocalDate day)
      throws IOException {
    String rig =
        URLEncoder.encode(of.deviceId(), StandardCharsets.UTF_8)
            .replace("+", "%20")
            .replace("*", "%2A");
    Path partition = folder.resolve(table).resolve("rig=" + rig).resolve("date=" + day);
    Files.createDirectories(partition);
    return partition.resolve(nanos(of.startedAt()) + ".parquet");
  }

  private void writeSamples(ParquetWriter<SampleRow> out, CutRow row) throws IOException {
    Optional<Calibration> calibration =
        row.cut()
            .summary()
            .force()
            .flatMap(force -> store.calibration(CutCells.calibrationId(force)))
            .map(stored -> stored.calibration());
    TraceForces forces =
        new TraceForces(
            calibration,
            row.cut().summary().result().polarity(),
            row.cut().summary().result().rest().zeroBeforeCounts());
    for (int i = 0; i < row.cut().trace().size(); i++) {
      out.write(new SampleRow(row, forces, i));
    }
  }

  private static ParquetWriter<SampleRow> traces(Path file) throws IOException {
    return ParquetWriter.writeFile(
        TRACES,
        file.toFile(),
        (row, out) -> {
          Trace trace = row.of().cut().trace();
          int i = row.sample();
          out.write("recording_started_utc_ns", row.of().startedNanos());
          out.write("number", row.of().cut().summary().number());
          out.write("sample", i);
          out.write("t_ns", trace.deviceNanos(i));
          out.write("counts", trace.counts(i));
          out.write("overrange", trace.overrange(i));
          row.forces().newtons(trace.counts(i)).ifPresent(n -> out.write("force_n", n));
        });
  }

  private static ParquetWriter<CutRow> cuts(Path file) throws IOException {
    return ParquetWriter.writeFile(
        CUTS,
        file.toFile(),
        (row, out) -> new CutColumns(out).write(row.startedNanos(), row.cut()));
  }

  static long micros(Instant time) {
    return ChronoUnit.MICROS.between(Instant.EPOCH, time);
  }
}
