package snick.faults;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Clock;
import java.time.Instant;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import snick.exchange.LogImport;
import snick.exchange.PackageImport;
import snick.exchange.json.RefusedPackage;
import snick.port.RecordedSource;
import snick.quantity.SampleRate;
import snick.store.Store;
import snick.store.database.Watch;

/**
 * Fuzz target: import. The first byte says what the rest is: the content of one of a package's
 * files, its digest forged to fit; a zip file; or an old log. Refused with cause, or taken in.
 */
public final class ImportFuzz {
  private static final int STORE_LASTS = 500;
  private static final Path FOLDER = FuzzFolder.make("import");
  private static final Map<String, byte[]> WHOLE = whole();
  private static final List<String> NAMES = List.copyOf(WHOLE.keySet());
  private static int used;
  private static Store store = fresh();

  private ImportFuzz() {}

  /** One input. */
  public static void fuzzerTestOneInput(byte[] input) throws IOException {
    if (++used % STORE_LASTS == 0) {
      store.close();
      FuzzFolder.empty(FOLDER.resolve("data"));
      store = fresh();
    }
    FuzzInput from = new FuzzInput(input);
    int what = from.u8() % (NAMES.size() + 2);
    try {
      if (what < NAMES.size()) {
        importPackage(zip(NAMES.get(what), from.rest()));
      } else if (what == NAMES.size()) {
        importPackage(from.rest());
      } else {
        importLog(from.rest());
      }
    } catch (RefusedPackage refused) {
      requireCause(refused);
    }
  }

  private static Store fresh() {
    return Store.open(FOLDER.resolve("data"), Clock.systemUTC());
  }

  private static void requireCause(RefusedPackage refused) {
    if (refused.getMessage() == null || refused.getMessage().isBlank()) {
      throw new IllegalStateException("refused without cause", refused);
    }
  }

  private static void importPackage(byte[] zip) throws IOException {
    Path file = Files.write(FOLDER.resolve("package.zip"), zip);
    new PackageImport(file, Optional.empty(), Watch.NONE).into(store, true);
  }

  private static void importLog(byte[] log) throws IOException {
    LogImport old = new LogImport("log", () -> bytes(log), new SampleRate(80));
    LogImport.Facts facts = old.look();
    old.into(store, facts, "bench", Instant.parse("2026-05-04T12:00:00Z"));
  }

  private static LogImport.Bytes bytes(byte[] log) throws IOException {
    RecordedSource source;
    try {
      source = RecordedSource.of(new ByteArrayInputStream(log));
    } catch (IOException e) {
      source = RecordedSource.of(new ByteArrayInputStream(new byte[0]));
    }
    RecordedSource opened = source;
    return new LogImport.Bytes() {
      @Override
      public int read(byte[] buffer) throws IOException {
        int count = opened.read(buffer);
        return opened.ended() ? -1 : count;
      }

      @Override
      public void close() throws IOException {
        opened.close();
      }
    };
  }

  private static byte[] zip(String changed, byte[] content) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream out = new ZipOutputStream(bytes)) {
      out.setLevel(0);
      for (String name : NAMES) {
        out.putNextEntry(new ZipEntry(name));
        out.write(name.equals(changed) ? content : described(name, changed, content));
        out.closeEntry();
      }
    }
    return bytes.toByteArray();
  }

  /** The file as it was, but the descriptor with length and digest of what was changed. */
  private static byte[] described(String name, String changed, byte[] content) {
    byte[] file = WHOLE.get(name);
    if (!name.equals("datapackage.json")) {
      return file;
    }
    return new String(file, StandardCharsets.UTF_8)
        .replace(facts(WHOLE.get(changed)), facts(content))
        .getBytes(StandardCharsets.UTF_8);
  }

  private static String facts(byte[] content) {
    try {
      byte[] digest = MessageDigest.getInstance("SHA-256").digest(content);
      return "\"bytes\" : "
          + content.length
          + ",\n      \"hash\" : \"sha256:"
          + HexFormat.of().formatHex(digest);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  private static Map<String, byte[]> whole() {
    Map<String, byte[]> files = new LinkedHashMap<>();
    try (InputStream in = Store.class.getResourceAsStream("/snick/exchange/format-1.zip");
        ZipInputStream zip = new ZipInputStream(in)) {
      for (ZipEntry e = zip.getNextEntry(); e != null; e = zip.getNextEntry()) {
        files.put(e.getName(), zip.readAllBytes());
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return files;
  }
}
