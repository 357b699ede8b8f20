package snick.exchange.json;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.function.Function;
import snick.journal.CutPlacement;
import snick.journal.Entry;
import snick.journal.Inspection;
import snick.journal.SharpeningStep;
import snick.journal.StageEntry;
import snick.journal.Withdrawn;
import snick.json.Json;
import snick.json.JsonForm;
import snick.json.JsonNode;
import snick.store.record.Noted;
import snick.store.record.Version;

/**
 * What corrections replaced, in {@code journal.json}: all versions under {@code history} and all
 * entries of a session under {@code entries}, in the order written, those that stand too. Left out
 * where nothing was corrected.
 */
public final class JournalHistory {
  public static final String NO_REASON = "(reason not in the package)";
  private static final String MEMBER = "history";
  private static final String ENTRIES = "entries";
  private static final int MOST = 4_000;

  private static final JsonForm<CutPlacement> PLACEMENT =
      JsonForm.of(
          CutPlacement.class,
          JsonForm.instant("at"),
          JsonForm.member("stage", JsonNode::text),
          JsonForm.member("cut", node -> (long) node.integer()),
          JsonForm.member("place_mm", JsonNode::optionalReal));

  private JournalHistory() {}

  /** The versions of something in a store, oldest first. */
  public static <T> List<Version<T>> versions(List<Entry<T>> entries) {
    return entries.size() == 1
        ? List.of(Version.only(entries.get(0).content()))
        : entries.stream().map(JournalHistory::version).toList();
  }

  static <T> Version<T> version(Entry<T> entry) {
    return new Version<>(java.util.Optional.of(entry.recorded()), entry.why(), entry.content());
  }

  /** {@code json} with all versions, if there are several. */
  static <T> Map<String, Object> with(
      Map<String, Object> json,
      List<Version<T>> versions,
      Function<T, Map<String, Object>> writing,
      boolean personal) {
    if (versions.size() > 1) {
      List<Object> list = new ArrayList<>();
      versions.forEach(v -> list.add(one(v, OptionalInt.empty(), writing, personal)));
      json.put(MEMBER, list);
    }
    return json;
  }

  private static <T> Map<String, Object> one(
      Version<T> version,
      OptionalInt corrects,
      Function<T, Map<String, Object>> writing,
      boolean personal) {
    Map<String, Object> json =
        Json.object(
            "recorded", version.recorded().map(Instant::toString),
            "corrects", corrects,
            "why", Json.when(personal && !version.why().isEmpty(), version.why()));
    json.putAll(writing.apply(version.content()));
    return json;
  }

  /** The versions of {@code node}: its history, or itself alone. */
  static <T> List<Version<T>> readVersions(JsonNode node, Function<JsonNode, T> reading) {
    T standing = node.as(reading);
    if (!node.member(MEMBER).present()) {
      return List.of(Version.only(standing));
    }
    List<Version<T>> versions = new ArrayList<>();
    for (JsonNode item : bounded(node.member(MEMBER))) {
      versions.add(readVersion(item, reading, !versions.isEmpty()));
    }
    if (!versions.get(versions.size() - 1).content().equals(standing)) {
      throw new RefusedPackage(
          node.place() + ".history does not end with what stands; ask the sender");
    }
    return versions;
  }

  private static <T> Version<T> readVersion(
      JsonNode node, Function<JsonNode, T> reading, boolean corrects) {
    return new Version<>(
        node.member("recorded").optionalInstant(),
        corrects ? node.member("why").textOr(NO_REASON) : "",
        node.as(reading));
  }

  private static List<JsonNode> bounded(JsonNode list) {
    List<JsonNode> items = list.elements();
    if (!(items.size() >= 1 && items.size() <= MOST)) {
      throw new RefusedPackage(
          list.place() + " has " + items.size() + " items, not 1 to " + MOST + "; ask the sender");
    }
    return items;
  }

  /** {@code json} with the entries of a session, if there are any. */
  static void put(Map<String, Object> json, List<Noted> entries, boolean personal) {
    if (!entries.isEmpty()) {
      List<Object> list = new ArrayList<>();
      entries.forEach(
          e -> list.add(one(e.version(), e.corrects(), c -> content(c, personal), personal)));
      json.put(ENTRIES, list);
    }
  }

  private static Map<String, Object> content(StageEntry content, boolean personal) {
    Map<String, Object> json = new LinkedHashMap<>();
    if (content instanceof SharpeningStep step) {
      json.put("kind", "step");
      json.putAll(JournalJson.step(step, personal));
    } else if (content instanceof Inspection inspection) {
      json.put("kind", "inspection");
      json.putAll(JournalJson.look(inspection, personal));
    } else if (content instanceof CutPlacement placement) {
      json.put("kind", "placement");
      json.putAll(PLACEMENT.write(placement));
    } else {
      json.put("kind", "withdrawal");
      json.put("at", content.at().toString());
      json.put("stage", content.stage());
    }
    return json;
  }

  /** The entries of a session; empty if nothing in it was corrected. */
  static List<Noted> readEntries(JsonNode session) {
    List<Noted> entries = new ArrayList<>();
    if (session.member(ENTRIES).present()) {
      for (JsonNode node : bounded(session.member(ENTRIES))) {
        OptionalInt corrects = node.member("corrects").optionalInteger();
        entries.add(
            new Noted(
                readVersion(node, JournalHistory::readContent, corrects.isPresent()), corrects));
      }
    }
    return entries;
  }

  private static StageEntry readContent(JsonNode node) {
    return switch (node.member("kind").text()) {
      case "step" -> JournalJson.STEP.read(node);
      case "inspection" -> JournalJson.readLook(node);
      case "placement" -> PLACEMENT.read(node);
      case "withdrawal" -> new Withdrawn(node.member("at").instant(), node.member("stage").text());
      default -> throw new IllegalArgumentException("kind of entry is not known here");
    };
  }
}
