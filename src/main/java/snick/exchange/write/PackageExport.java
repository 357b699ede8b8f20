package snick.exchange.write;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import snick.cut.Trace;
import snick.exchange.derive.InOrder;
import snick.exchange.derive.TraceForces;
import snick.exchange.json.CalibrationJson;
import snick.exchange.json.JournalJson;
import snick.exchange.json.MissingForces;
import snick.exchange.json.RigJson;
import snick.exchange.table.BeforeRow;
import snick.exchange.table.CsvFile;
import snick.exchange.table.DigestedFile;
import snick.exchange.table.FileFacts;
import snick.exchange.table.PackageTable;
import snick.exchange.write.ExportChoice.Wish;
import snick.force.budget.Calibration;
import snick.journal.Photo;
import snick.json.Json;
import snick.store.StoreReader;
import snick.store.database.Watch;
import snick.store.record.CutSummary;
import snick.store.record.Derivation;
import snick.store.record.EarlierResult;
import snick.store.record.StoredCut;
import snick.store.record.StoredResponse;
import snick.store.trace.TraceBlob;

/**
 * Writes stored cuts as a Frictionless Data Package. The same cuts, notes and choices give the same
 * bytes, whatever store they lie in. Traces pass one at a time; nothing is left if it fails.
 */
public final class PackageExport {
  private static final LocalDateTime ZIP_TIME = LocalDateTime.of(1980, 1, 1, 0, 0);

  private final StoreReader store;
  private final ExportChoice choice;
  private final Watch watch;
  private final Map<String, FileFacts> files = new HashMap<>();
  private final Map<String, Optional<Calibration>> calibrations = new HashMap<>();
  private final Map<String, StoredResponse> responses = new LinkedHashMap<>();
  private final MissingForces missing = new MissingForces();
  private List<Licence> licences = List.of();
  private int cuts;

  /** An export of {@code choice} from {@code store}. */
  public PackageExport(StoreReader store, ExportChoice choice, Watch watch) {
    this.store = store;
    this.choice = choice;
    this.watch = watch;
  }

  /**
   * Writes the package as a new folder.
   *
   * @return number of cuts in it
   * @throws java.nio.file.FileAlreadyExistsException if {@code folder} exists
   */
  public int toFolder(Path folder) throws IOException {
    Atomically.make(folder, this::filled);
    return cuts;
  }

  /**
   * Writes the package as a new zip file.
   *
   * @return number of cuts in it
   * @throws java.nio.file.FileAlreadyExistsException if {@code zip} exists
   */
  public int toZip(Path zip) throws IOException {
    Atomically.make(
        zip,
        workshop -> {
          Path made = workshop.resolve("package.zip");
          pack(filled(workshop), made);
          return made;
        });
    return cuts;
  }

  /** Licences of what was written; empty if some of it has none. */
  public List<Licence> licences() {
    return licences;
  }

  private Path filled(Path workshop) throws IOException {
    Path folder = Files.createDirectory(workshop.resolve("package"));
    Numbering numbering = new Numbering(store, choice);
    boolean personal = choice.has(Wish.PERSONAL);
    cuts = numbering.cuts();
    licences = numbering.attribution().licences();
    try {
      writeTables(folder, numbering);
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
    writePhotos(folder, numbering.journal().photos());
    String readme = Readme.of(numbering.attribution(), cuts);
    write(folder, PackageFiles.README, readme.getBytes(StandardCharsets.UTF_8));
    writeJson(
        folder, RigJson.FILE, RigJson.of(numbering.recordingItems(), responses.values(), personal));
    writeJson(
        folder,
        CalibrationJson.FILE,
        CalibrationJson.of(numbering.calibrationItems(), missing, personal));
    writeJson(folder, JournalJson.FILE, JournalJson.of(numbering.journal(), personal));
    writeJson(
        folder, PackageFiles.DESCRIPTOR, Descriptor.of(numbering.attribution(), personal, files));
    return folder;
  }

  /** Each as it was kept; its digest is its name, so a changed or missing one does not go out. */
  private void writePhotos(Path folder, List<Photo> photos) throws IOException {
    if (photos.size() > PackageFiles.MOST_PHOTOS) {
      throw new IOException(
          photos.size() + " photos, a package takes " + PackageFiles.MOST_PHOTOS + ": choose less");
    }
    for (Photo photo : photos) {
      String name = PackageFiles.of(photo);
      byte[] content =
          store
              .photos()
              .read(photo)
              .orElseThrow(
                  () -> new IOException(name + " is missing or changed: snick store check"));
      Files.createDirectories(folder.resolve(name).getParent());
      write(folder, name, content);
    }
  }

  private void writeTables(Path folder, Numbering numbering) throws IOException {
    DigestedFile cutsOut = open(folder, PackageTable.CUTS.file());
    DigestedFile tracesOut = open(folder, PackageTable.TRACES.file());
    DigestedFile beforeOut = open(folder, PackageTable.BEFORE.file());
    DigestedFile gapsOut = open(folder, PackageTable.GAPS.file());
    DigestedFile overrangeOut = open(folder, PackageTable.OVERRANGE.file());
    DigestedFile historyOut = open(folder, PackageTable.HISTORY.file());
    try (CsvFile rows = new CsvFile(PackageTable.CUTS, cutsOut);
        tracesOut;
        InOrder<byte[]> traces = new InOrder<>(bytes -> write(tracesOut, bytes));
        CsvFile before = new CsvFile(PackageTable.BEFORE, beforeOut);
        CsvFile gaps = new CsvFile(PackageTable.GAPS, gapsOut);
        CsvFile overrange = new CsvFile(PackageTable.OVERRANGE, overrangeOut);
        CsvFile history = new CsvFile(PackageTable.HISTORY, historyOut)) {
      CsvFile.writeHeader(PackageTable.TRACES, tracesOut);
      for (int number = 1; number <= numbering.cuts(); number++) {
        watch.check("writing", number - 1L, numbering.cuts());
        StoredCut cut = store.cut(numbering.cutId(number)).orElseThrow();
        rows.row(PackageTable.CUTS.cells(numbering.row(number, cut.summary())));
        note(cut.summary().result());
        int cutNumber = number;
        cut.summary().standing().missingAtFirst().ifPresent(why -> missing.add(cutNumber, why));
        int row = 0;
        for (EarlierResult earlier : numbering.earlier(cut.id())) {
          row++;
          history.row(PackageTable.HISTORY.cells(numbering.row(number, row, earlier)));
          note(earlier.result());
        }
        traces.give(cut.trace().size(), new TraceRows(number, cut.trace(), forces(cut.summary())));
        cut.trace()
            .before()
            .ifPresent(b -> before.row(PackageTable.BEFORE.cells(new BeforeRow(cutNumber, b))));
        writeGaps(gaps, number, cut.trace());
        writeOverrange(overrange, number, cut.trace());
      }
      traces.finish();
    }
    files.put(PackageTable.CUTS.file(), cutsOut.facts());
    files.put(PackageTable.TRACES.file(), tracesOut.facts());
    files.put(PackageTable.BEFORE.file(), beforeOut.facts());
    files.put(PackageTable.GAPS.file(), gapsOut.facts());
    files.put(PackageTable.OVERRANGE.file(), overrangeOut.facts());
    files.put(PackageTable.HISTORY.file(), historyOut.facts());
    watch.check("writing", numbering.cuts(), numbering.cuts());
  }

  /** The response that a result was derived with comes along. */
  private void note(Derivation result) {
    result
        .responseId()
        .filter(id -> !responses.containsKey(id))
        .flatMap(store::response)
        .ifPresent(r -> responses.put(r.response().id(), r));
  }

  private static DigestedFile open(Path folder, String name) throws IOException {
    return new DigestedFile(folder.resolve(name));
  }

  private static void write(OutputStream out, byte[] bytes) {
    try {
      out.write(bytes);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private TraceForces forces(CutSummary cut) {
    return new TraceForces(
        calibration(cut), cut.figures().polarity(), cut.figures().rest().zeroBeforeCounts());
  }

  private Optional<Calibration> calibration(CutSummary cut) {
    return cut.force()
        .flatMap(
            force ->
                calibrations.computeIfAbsent(
                    force.calibrationId(), id -> store.calibration(id).map(c -> c.calibration())));
  }

  private static void writeGaps(CsvFile out, int number, Trace trace) {
    var gaps = trace.gaps();
    for (int i = 0; i < gaps.size(); i++) {
      out.row(PackageTable.GAPS.cells(new PackageTable.Missing(number, i + 1, gaps.get(i))));
    }
  }

  private static void writeOverrange(CsvFile out, int number, Trace trace) {
    for (int[] run : TraceBlob.overrangeRuns(trace)) {
      out.row(PackageTable.OVERRANGE.cells(new PackageTable.Run(number, run[0], run[1] - 1)));
    }
  }

  private void write(Path folder, String name, byte[] content) throws IOException {
    DigestedFile file = open(folder, name);
    try (file) {
      file.write(content);
    }
    files.put(name, file.facts());
  }

  private void writeJson(Path folder, String name, Object value) throws IOException {
    DigestedFile file = open(folder, name);
    try (file) {
      Json.write(value, file);
    }
    files.put(name, file.facts());
  }

  private void pack(Path folder, Path zip) throws IOException {
    try (OutputStream file = Files.newOutputStream(zip);
        ZipOutputStream out = new ZipOutputStream(file, StandardCharsets.UTF_8)) {
      long packedBytes = 0;
      add(out, folder, PackageFiles.DESCRIPTOR, packedBytes);
      for (String name : inOrder()) {
        add(out, folder, name, packedBytes);
        packedBytes += files.get(name).bytes();
      }
    }
  }

  private List<String> inOrder() {
    List<String> names = new ArrayList<>(PackageFiles.DESCRIBED);
    files.keySet().stream()
        .filter(name -> PackageFiles.photo(name).isPresent())
        .sorted()
        .forEach(names::add);
    return names;
  }

  private void add(ZipOutputStream out, Path folder, String name, long packedBytes)
      throws IOException {
    ZipEntry entry = new ZipEntry(name);
    entry.setTimeLocal(ZIP_TIME);
    out.putNextEntry(entry);
    byte[] buffer = new byte[1 << 16];
    try (var in = Files.newInputStream(folder.resolve(name))) {
      int count = in.read(buffer);
      long done = packedBytes;
      while (count >= 0) {
        watch.check("packing", done, totalBytes());
        done += count;
        out.write(buffer, 0, count);
        count = in.read(buffer);
      }
    }
    out.closeEntry();
  }

  private long totalBytes() {
    return files.values().stream().mapToLong(FileFacts::bytes).sum();
  }
}
