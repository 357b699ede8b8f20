package snick.exchange.write;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import snick.exchange.table.FileFacts;
import snick.exchange.table.PackageTable;
import snick.journal.Photo;

/** {@code datapackage.json}, Data Package version 2.0 (datapackage.org). */
final class Descriptor {
  static final String PROFILE = "https://datapackage.org/profiles/2.0/datapackage.json";
  private static final String RESOURCE = "https://datapackage.org/profiles/2.0/dataresource.json";

  private Descriptor() {}

  static Map<String, Object> of(
      Attribution attribution, boolean personal, Map<String, FileFacts> files) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("$schema", PROFILE);
    json.put("name", "snick-traces");
    json.put("title", attribution.title());
    json.put(
        "description",
        "Raw force traces of edges that part a taut filament, with what was found in them."
            + " In-house measurements, not an accredited certificate.");
    json.put("snick_format", PackageFiles.FORMAT);
    json.put("personal_fields", personal);
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
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("name", table.resource());
    json.put("type", "table");
    json.put("$schema", RESOURCE);
    json.put("path", table.file());
    json.put("title", table.title());
    json.put("format", "csv");
    json.put("mediatype", "text/csv");
    json.put("encoding", "utf-8");
    put(json, facts);
    json.put("schema", table.schema());
    return json;
  }

  private static Map<String, Object> document(String file, FileFacts facts) {
    boolean isJson = file.endsWith(".json");
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("name", file.substring(0, file.indexOf('.')).toLowerCase(Locale.ROOT));
    json.put("path", file);
    json.put("format", isJson ? "json" : "md");
    json.put("mediatype", isJson ? "application/json" : "text/markdown");
    json.put("encoding", "utf-8");
    put(json, facts);
    return json;
  }

  private static Map<String, Object> photo(Photo photo, FileFacts facts) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("name", "photo-" + photo.sha256());
    json.put("path", PackageFiles.of(photo));
    json.put("mediatype", photo.kind().mediaType());
    put(json, facts);
    return json;
  }

  private static void put(Map<String, Object> json, FileFacts facts) {
    json.put("bytes", facts.bytes());
    json.put("hash", "sha256:" + facts.sha256());
  }
}
