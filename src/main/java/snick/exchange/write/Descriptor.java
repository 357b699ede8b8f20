package snick.exchange.write;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import snick.exchange.table.FileFacts;
import snick.exchange.table.PackageTable;
import snick.journal.Photo;
import snick.json.Json;

/** {@code datapackage.json}, Data Package version 2.0 (datapackage.org). */
final class Descriptor {
  static final String PROFILE = "https://datapackage.org/profiles/2.0/datapackage.json";
  private static final String RESOURCE = "https://datapackage.org/profiles/2.0/dataresource.json";

  private static final String DESCRIPTION =
      "Raw force traces of edges that part a taut filament, with what was found in them."
          + " In-house measurements, not an accredited certificate.";

  private Descriptor() {}

  static Map<String, Object> of(
      Attribution attribution, boolean personal, Map<String, FileFacts> files) {
    Map<String, Object> json =
        Json.object(
            "$schema",
            PROFILE,
            "name",
            "snick-traces",
            "title",
            attribution.title(),
            "description",
            DESCRIPTION,
            "snick_format",
            PackageFiles.FORMAT,
            "personal_fields",
            personal);
    attribution.put(json);
    List<Object> resources = new ArrayList<>();
    for (PackageTable<?> table : PackageTable.ALL) {
      resources.add(table(table, files.get(table.file())));
    }
    for (String file : PackageFiles.DESCRIBED) {
      if (!file.endsWith(".csv")) {
        resources.add(document(file, files.get(file)));
      }
    }
    files.keySet().stream()
        .sorted()
        .forEach(
            file ->
                PackageFiles.photo(file)
                    .ifPresent(photo -> resources.add(photo(photo, files.get(file)))));
    json.put("resources", resources);
    return json;
  }

  private static Map<String, Object> table(PackageTable<?> table, FileFacts facts) {
    return Json.object(
        "name", table.resource(),
        "type", "table",
        "$schema", RESOURCE,
        "path", table.file(),
        "title", table.title(),
        "format", "csv",
        "mediatype", "text/csv",
        "encoding", "utf-8",
        "bytes", facts.bytes(),
        "hash", hash(facts),
        "schema", table.schema());
  }

  private static Map<String, Object> document(String file, FileFacts facts) {
    boolean isJson = file.endsWith(".json");
    return Json.object(
        "name",
        file.substring(0, file.indexOf('.')).toLowerCase(Locale.ROOT),
        "path",
        file,
        "format",
        isJson ? "json" : "md",
        "mediatype",
        isJson ? "application/json" : "text/markdown",
        "encoding",
        "utf-8",
        "bytes",
        facts.bytes(),
        "hash",
        hash(facts));
  }

  private static Map<String, Object> photo(Photo photo, FileFacts facts) {
    return Json.object(
        "name", "photo-" + photo.sha256(),
        "path", PackageFiles.of(photo),
        "mediatype", photo.kind().mediaType(),
        "bytes", facts.bytes(),
        "hash", hash(facts));
  }

  private static String hash(FileFacts facts) {
    return "sha256:" + facts.sha256();
  }
}
