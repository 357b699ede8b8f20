package snick.exchange.write;

import java.io.IOException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.UUID;
import snick.exchange.json.RigJson;
import snick.exchange.table.ParquetColumn;
import snick.exchange.table.ParquetFile;
import snick.journal.Session;
import snick.json.Json;
import snick.phrase.NotAccepted;
import snick.store.StoreReader;
import snick.store.database.UtcNanos;
import snick.store.database.Watch;
import snick.store.record.Credit;
import snick.store.record.StoredCut;

/**
 * Writes stored cuts as Parquet for engines that pool the rigs of many people: {@code
 * cuts/contributor=WHO/rig=ID/date=2026-05-04/START.parquet} and {@code traces/…} alike, dates in
 * UTC, START being the recording's start in ns since 1970; beside them recordings, calibrations and
 * stages by contributor. A cut has the same key (contributor, rig, recording_started_utc_ns,
 * number) in whatever set it turns up, and its files the same names, so that folders of many people
 * can be laid into one. No free text goes along but names of blades, lots, sessions and stages.
 */
public final class ParquetExport {
  /** A name of a folder holds 255 bytes, some of which say what it is. */
  private static final int LONGEST_KEY_BYTES = 200;

  private final StoreReader store;
  private final ExportChoice choice;
  private final Watch watch;
  private Attribution attribution;

  /**
   * An export of {@code choice}, which names its contributor, from {@code store}.
   *
   * @throws IllegalArgumentException if it names none
   */
  public ParquetExport(StoreReader store, ExportChoice choice, Watch watch) {
    if (choice.about().contributor().isEmpty()) {
      throw new IllegalArgumentException(
          "a pool needs your name, for two people may call their rigs alike: --contributor NAME");
    }
    this.store = store;
    this.choice = choice;
    this.watch = watch;
  }

  /** What lies in one file of cuts and one of traces. */
  private record Part(String contributor, int recording, LocalDate day) {}

  /**
   * Writes the set as a new folder.
   *
   * @return number of cuts in it
   * @throws java.nio.file.FileAlreadyExistsException if {@code folder} exists
   * @throws NotAccepted if it would put a licence on what others gave without one
   */
  public int toFolder(Path folder) throws IOException {
    Numbering numbering = new Numbering(store, choice);
    attribution = numbering.attribution();
    Atomically.make(
        folder,
        workshop -> {
          Path made = Files.createDirectory(workshop.resolve("set"));
          write(made, numbering);
          return made;
        });
    return numbering.cuts();
  }

  /** Licences of what was written; empty if some of it has none. */
  public List<Licence> licences() {
    return attribution.licences();
  }

  private void write(Path folder, Numbering numbering) throws IOException {
    Map<Part, List<Integer>> parts = new LinkedHashMap<>();
    for (int number = 1; number <= numbering.cuts(); number++) {
      parts.computeIfAbsent(part(numbering, number), part -> new ArrayList<>()).add(number);
    }
    Beside beside = new Beside(folder);
    int done = 0;
    for (Map.Entry<Part, List<Integer>> part : parts.entrySet()) {
      watch.check("writing", done, numbering.cuts());
      done += part.getValue().size();
      write(folder, numbering, part.getKey(), part.getValue(), beside);
    }
    watch.check("writing", done, numbering.cuts());
  }

  private Part part(Numbering numbering, int number) {
    long id = numbering.cutId(number);
    return new Part(
        contributor(numbering.credit(id)),
        numbering.recordingOf(number),
        numbering.occurredAt(number).atZone(ZoneOffset.UTC).toLocalDate());
  }

  /** Who made a cut; where a package names nobody, the package. */
  private String contributor(Optional<Credit.Of> of) {
    return of.map(Credit.Of::credit)
        .map(
            credit ->
                credit.contributors().isEmpty()
                    ? "package-" + credit.sha256().substring(0, 12)
                    : String.join(" & ", credit.contributors()))
        .orElseGet(() -> choice.about().contributor().orElseThrow());
  }

  private void write(
      Path folder, Numbering numbering, Part part, List<Integer> numbers, Beside beside)
      throws IOException {
    RigJson.Item recording = numbering.recordingItems().get(part.recording() - 1);
    String place =
        "contributor=" + key(part.contributor()) + "/rig=" + key(recording.recording().deviceId());
    long started = UtcNanos.of(recording.recording().startedAt());
    String file = place + "/date=" + part.day() + "/" + started + ".parquet";
    TreeSet<String> licences = new TreeSet<>();
    numbers.forEach(n -> licence(numbering, n).ifPresent(licences::add));
    Facts facts = new Facts(part.contributor(), String.join(", ", licences));
    try (ParquetFile<Pool.CutRow> cuts = facts.open(folder, "cuts", file, Pool.CUTS);
        ParquetFile<Pool.CutRow> traces = facts.open(folder, "traces", file, Pool.TRACES)) {
      for (int number : numbers) {
        StoredCut cut = store.cut(numbering.cutId(number)).orElseThrow();
        Pool.CutRow row =
            new Pool.CutRow(
                started,
                cut,
                cut.summary().place().flatMap(p -> store.journal().session(p.session())),
                licence(numbering, number));
        cuts.write(row);
        traces.write(row);
        beside.note(row, facts);
      }
    }
    beside.note(place + "/" + started, recording, facts);
  }

  private Optional<String> licence(Numbering numbering, int number) {
    long id = numbering.cutId(number);
    return numbering.source(id).isPresent()
        ? attribution.sources().get(numbering.source(id).getAsInt() - 1).licence()
        : attribution.licence().map(Licence::name);
  }

  /** Text as the name of a folder: escaped as in a URL, and shortened if it is too long. */
  public static String key(String text) {
    String escaped =
        URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20").replace("*", "%2A");
    return escaped.length() <= LONGEST_KEY_BYTES
        ? escaped
        : "name-" + UUID.nameUUIDFromBytes(text.getBytes(StandardCharsets.UTF_8));
  }

  /** What the files of one contributor say of themselves. */
  private record Facts(String contributor, String licence) {
    <R> ParquetFile<R> open(Path folder, String table, String file, List<ParquetColumn<R>> columns)
        throws IOException {
      Path target = folder.resolve(table).resolve(file);
      Files.createDirectories(target.getParent());
      return new ParquetFile<>(target, columns, metadata(table, columns));
    }

    private <R> Map<String, String> metadata(String table, List<ParquetColumn<R>> columns)
        throws IOException {
      Map<String, Object> units = new LinkedHashMap<>();
      columns.stream()
          .map(ParquetColumn::attribute)
          .filter(a -> !a.unit().isEmpty())
          .forEach(a -> units.put(a.name(), a.unit()));
      Map<String, String> metadata = new LinkedHashMap<>();
      metadata.put("table", table);
      metadata.put("contributor", contributor);
      metadata.put("licence", licence);
      metadata.put("units", Json.text(units));
      return metadata;
    }
  }

  /** The small tables, each thing once for each contributor. */
  private final class Beside {
    private final Path folder;
    private final TreeSet<String> written = new TreeSet<>();

    Beside(Path folder) {
      this.folder = folder;
    }

    void note(String place, RigJson.Item recording, Facts facts) throws IOException {
      write(facts, "recordings", place + ".parquet", Pool.RECORDINGS, List.of(recording));
    }

    void note(Pool.CutRow row, Facts facts) throws IOException {
      String who = "contributor=" + key(facts.contributor()) + "/";
      if (row.summary().force().isPresent()) {
        String id = row.summary().force().get().calibrationId();
        String file = who + key(id) + ".parquet";
        if (isNew("calibrations", file)) {
          List<snick.force.budget.Calibration> one =
              store.calibration(id).stream().map(c -> c.calibration()).toList();
          write(facts, "calibrations", file, Pool.CALIBRATIONS, one);
        }
      }
      if (row.session().isPresent()) {
        Session session = row.session().get();
        String file = who + key(session.name()) + ".parquet";
        if (isNew("stages", file)) {
          write(facts, "stages", file, Pool.STAGES, stages(session));
        }
      }
    }

    private boolean isNew(String table, String file) {
      return !written.contains(table + "/" + file);
    }

    private <R> void write(
        Facts facts, String table, String file, List<ParquetColumn<R>> columns, List<R> rows)
        throws IOException {
      if (written.add(table + "/" + file)) {
        try (ParquetFile<R> out = facts.open(folder, table, file, columns)) {
          for (R row : rows) {
            out.write(row);
          }
        }
      }
    }

    private List<Pool.StageRow> stages(Session session) {
      Optional<snick.journal.Blade> blade = store.journal().blade(session.blade());
      Optional<snick.journal.FilamentLot> lot =
          session.equipment().filamentLot().flatMap(store.journal()::filamentLot);
      return store.journal().log(session.name()).orElseThrow().stages().stream()
          .map(stage -> new Pool.StageRow(session, stage, blade, lot))
          .toList();
    }
  }
}
