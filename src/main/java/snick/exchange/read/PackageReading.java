package snick.exchange.read;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import snick.exchange.derive.StatedCut;
import snick.exchange.json.CalibrationJson;
import snick.exchange.json.JournalJson;
import snick.exchange.json.MissingForces;
import snick.exchange.json.RefusedPackage;
import snick.exchange.json.ResponseJson;
import snick.exchange.json.RigJson;
import snick.exchange.table.CheckedInput;
import snick.exchange.table.CsvRows;
import snick.exchange.table.DigestedFile;
import snick.exchange.table.FileFacts;
import snick.exchange.table.PackageTable;
import snick.exchange.write.Attribution;
import snick.exchange.write.PackageFiles;
import snick.journal.Photo;
import snick.json.Json;
import snick.json.JsonNode;
import snick.phrase.NotAccepted;
import snick.store.database.Watch;

/**
 * A package being read: hostile until the end. The descriptor first, then the small files, then cut
 * by cut in constant memory; digests are compared at the end of each file, so nothing may be kept
 * before {@link #forEachCut} has returned.
 */
public final class PackageReading implements AutoCloseable {
  private static final int MOST_JSON_BYTES = 64 << 20;
  private static final long MOST_TABLE_BYTES = 1L << 37;
  private static final int MOST_CUTS = 10_000_000;

  private final PackageSource source;
  private final Map<String, FileFacts> stated = new HashMap<>();
  private final JsonNode descriptor;
  private final String descriptorSha256;
  private final PackageContents contents;

  private PackageReading(PackageSource source) throws IOException {
    this.source = source;
    byte[] bytes = bounded(PackageFiles.DESCRIPTOR);
    descriptor = json(PackageFiles.DESCRIPTOR, new java.io.ByteArrayInputStream(bytes));
    var digest = DigestedFile.sha256();
    digest.update(bytes);
    descriptorSha256 = DigestedFile.hex(digest);
    requireFormat();
    descriptor.member("resources").elements().forEach(this::note);
    for (String file : PackageFiles.DESCRIBED) {
      if (!stated.containsKey(file)) {
        throw new RefusedPackage(
            PackageFiles.DESCRIPTOR + " lists no " + file + "; ask the sender for a whole package");
      }
    }
    checked(PackageFiles.README);
    JsonNode rig = checked(RigJson.FILE);
    JsonNode calibration = checked(CalibrationJson.FILE);
    contents =
        new PackageContents(
            RigJson.read(rig),
            CalibrationJson.read(calibration),
            JournalJson.read(checked(JournalJson.FILE)),
            MissingForces.read(calibration),
            Attribution.read(descriptor, descriptorSha256),
            ResponseJson.read(rig));
    requirePhotos();
  }

  /** Every photo that an inspection names is there, and no other. */
  private void requirePhotos() {
    Set<String> named =
        contents.journal().photos().stream().map(PackageFiles::of).collect(Collectors.toSet());
    Set<String> listed =
        stated.keySet().stream()
            .filter(file -> PackageFiles.photo(file).isPresent())
            .collect(Collectors.toSet());
    if (!named.equals(listed) || named.size() > PackageFiles.MOST_PHOTOS) {
      throw new RefusedPackage(
          PackageFiles.DESCRIPTOR
              + " lists "
              + listed.size()
              + " photos, journal.json names "
              + named.size()
              + ", not the same ones; ask the sender for a whole package");
    }
  }

  /** Gives every photo, its digest compared. */
  public void forEachPhoto(Consumer<byte[]> consumer) throws IOException {
    for (Photo photo : contents.journal().photos()) {
      String file = PackageFiles.of(photo);
      byte[] content = bounded(file);
      new CheckedInput(new java.io.ByteArrayInputStream(content), file, stated.get(file))
          .requireAsStated();
      requireKind(photo, file, content);
      consumer.accept(content);
    }
  }

  private static void requireKind(Photo photo, String file, byte[] content) {
    try {
      if (Photo.Kind.of(content) == photo.kind()) {
        return;
      }
    } catch (NotAccepted e) {
      throw new RefusedPackage(file + ": " + e.getMessage(), e);
    }
    throw new RefusedPackage(file + " is of another kind than its name says; do not trust it");
  }

  /** Opens a folder or a zip file. */
  public static PackageReading open(Path path) throws IOException {
    PackageSource source = Files.isDirectory(path) ? new FolderSource(path) : ZipSource.open(path);
    try {
      return new PackageReading(source);
    } catch (IOException | RuntimeException e) {
      source.close();
      throw e;
    }
  }

  private byte[] bounded(String file) throws IOException {
    try (InputStream in = source.open(file)) {
      byte[] bytes = in.readNBytes(MOST_JSON_BYTES + 1);
      if (bytes.length > MOST_JSON_BYTES) {
        throw new RefusedPackage(file + " is over " + MOST_JSON_BYTES + " bytes");
      }
      return bytes;
    }
  }

  private static JsonNode node(String file, Object value) {
    return new JsonNode(file + ": ", value, why -> new RefusedPackage(why + "; ask the sender"));
  }

  private static JsonNode json(String file, InputStream in) throws IOException {
    try {
      return node(file, Json.read(in));
    } catch (IllegalArgumentException e) {
      throw new RefusedPackage(
          file + " is no JSON that can be taken in: " + RefusedPackage.shown(e.getMessage()), e);
    }
  }

  private void requireFormat() {
    JsonNode format = descriptor.member("snick_format");
    if (!format.present()) {
      throw new RefusedPackage(
          PackageFiles.DESCRIPTOR + " has no snick_format: a Data Package, but not of this kind");
    }
    if (format.whole() != PackageFiles.FORMAT) {
      throw new RefusedPackage(
          PackageFiles.DESCRIPTOR
              + ": format "
              + format.whole()
              + " is not known, known: "
              + PackageFiles.FORMAT
              + "; use a newer program");
    }
  }

  private void note(JsonNode resource) {
    String path = resource.member("path").text();
    String hash = resource.member("hash").text();
    long bytes = resource.member("bytes").whole();
    Optional<Photo> photo = PackageFiles.photo(path);
    boolean known = PackageFiles.DESCRIBED.contains(path) || photo.isPresent();
    if (!known || photo.filter(p -> !hash.endsWith(p.sha256())).isPresent()) {
      throw new RefusedPackage(
          resource.place()
              + ".path '"
              + RefusedPackage.shown(path)
              + "' is no file of a package; do not trust it");
    }
    if (!hash.matches("sha256:[0-9a-f]{64}") || !(bytes >= 0 && bytes <= mostBytes(path))) {
      throw new RefusedPackage(
          resource.place()
              + ": "
              + bytes
              + " bytes or hash '"
              + RefusedPackage.shown(hash)
              + "' cannot be");
    }
    if (stated.put(path, new FileFacts(bytes, hash.substring("sha256:".length()))) != null) {
      throw new RefusedPackage(resource.place() + " lists " + path + " again");
    }
  }

  private static long mostBytes(String path) {
    if (PackageFiles.photo(path).isPresent()) {
      return Photo.MOST_BYTES;
    }
    return path.endsWith(".csv") ? MOST_TABLE_BYTES : MOST_JSON_BYTES;
  }

  /** The small file of a name, its digest compared; empty for what is no JSON. */
  private JsonNode checked(String file) throws IOException {
    byte[] bytes = bounded(file);
    CheckedInput input =
        new CheckedInput(new java.io.ByteArrayInputStream(bytes), file, stated.get(file));
    input.requireAsStated();
    return file.endsWith(".json")
        ? json(file, new java.io.ByteArrayInputStream(bytes))
        : node(file, "");
  }

  public String name() {
    return source.name();
  }

  /** Digest of the descriptor, which holds the digests of all other files. */
  public String sha256() {
    return descriptorSha256;
  }

  /** The title that the sender gave. */
  public String title() {
    return descriptor.member("title").textOr("");
  }

  public PackageContents contents() {
    return contents;
  }

  /** Takes a cut. */
  @FunctionalInterface
  public interface CutConsumer {
    void accept(StatedCut cut) throws IOException;
  }

  /** Takes a cut, and the force that the package states for each sample, N; NaN for none. */
  @FunctionalInterface
  public interface SampledCutConsumer {
    void accept(StatedCut cut, double[] statedNewtons) throws IOException;
  }

  /** Gives every cut; after it has returned, every file was what the descriptor states. */
  public int forEachCut(Watch watch, SampledCutConsumer consumer) throws IOException {
    try (InputStream tracesIn = source.open(PackageTable.TRACES.file());
        InputStream beforeIn = source.open(PackageTable.BEFORE.file());
        InputStream gapsIn = source.open(PackageTable.GAPS.file());
        InputStream overrangeIn = source.open(PackageTable.OVERRANGE.file())) {
      CsvRows traces = rows(PackageTable.TRACES, tracesIn);
      CsvRows before = rows(PackageTable.BEFORE, beforeIn);
      CsvRows gaps = rows(PackageTable.GAPS, gapsIn);
      CsvRows overrange = rows(PackageTable.OVERRANGE, overrangeIn);
      TraceReading samples = new TraceReading(traces, before, gaps, overrange);
      long totalBytes = stated.get(PackageTable.TRACES.file()).bytes();
      int cuts =
          forEachCut(
              samples,
              cut -> {
                watch.check("checking", traces.bytesRead(), totalBytes);
                consumer.accept(cut, samples.statedNewtons());
              });
      traces.requireEnd();
      before.requireEnd();
      gaps.requireEnd();
      overrange.requireEnd();
      return cuts;
    }
  }

  /** Gives every cut with a trace from elsewhere, one that was checked before. */
  public int forEachCut(Traces traces, CutConsumer consumer) throws IOException {
    try (InputStream historyIn = source.open(PackageTable.HISTORY.file());
        InputStream cutsIn = source.open(PackageTable.CUTS.file())) {
      CsvRows history = rows(PackageTable.HISTORY, historyIn);
      CsvRows cuts = rows(PackageTable.CUTS, cutsIn);
      int number = forEachCut(cuts, new HistoryReading(history, contents), traces, consumer);
      cuts.requireEnd();
      history.requireEnd();
      return number;
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }

  private int forEachCut(CsvRows cuts, HistoryReading history, Traces traces, CutConsumer consumer)
      throws IOException {
    CutReading reading = new CutReading(cuts, history, contents);
    int number = 0;
    while (cuts.present()) {
      number++;
      if (number > MOST_CUTS) {
        throw cuts.refused("over " + MOST_CUTS + " cuts");
      }
      consumer.accept(reading.with(number, traces));
      cuts.advance();
    }
    return number;
  }

  private CsvRows rows(PackageTable<?> table, InputStream in) {
    return new CsvRows(table, in, stated.get(table.file()));
  }

  @Override
  public void close() throws IOException {
    source.close();
  }
}
