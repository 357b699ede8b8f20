package snick.exchange.json;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Stream;
import snick.journal.Blade;
import snick.journal.EdgeDirection;
import snick.journal.FilamentLot;
import snick.journal.Finding;
import snick.journal.Inspection;
import snick.journal.Inspection.Look;
import snick.journal.Method;
import snick.journal.Photo;
import snick.journal.Place;
import snick.journal.Pressure;
import snick.journal.Session;
import snick.journal.Session.Equipment;
import snick.journal.SharpeningStep;
import snick.journal.SharpeningStep.Grain;
import snick.journal.Side;
import snick.json.JsonNode;
import snick.store.record.Noted;
import snick.store.record.Version;

/**
 * {@code journal.json}: the person's side, as it stands, and what corrections replaced beside it.
 */
public final class JournalJson {
  public static final String FILE = "journal.json";
  static final String NO_NOTE = "(note not in the package)";

  private JournalJson() {}

  /**
   * The journal of a package.
   *
   * @param blades blades of its sessions, each with its versions
   * @param lots filament lots of its sessions, each with its versions
   * @param sessions sessions, numbered by place from 1
   * @param acts how cuts were set aside and counted again, by number of the cut, in order
   */
  public record Journal(
      List<List<Version<Blade>>> blades,
      List<List<Version<FilamentLot>>> lots,
      List<Log> sessions,
      Map<Integer, List<Act>> acts) {
    /** Every photo that an inspection names, each once. */
    public List<Photo> photos() {
      return sessions.stream().flatMap(Log::photos).distinct().toList();
    }
  }

  /**
   * A session with what was noted in it. Places of cuts stand in cuts.csv.
   *
   * @param versions the session, oldest version first
   * @param stages names of its stages in order
   * @param steps steps that stand
   * @param inspections inspections that stand
   * @param history every entry, those that corrections replaced too, places of cuts where they were
   *     corrected; empty if nothing was
   */
  public record Log(
      List<Version<Session>> versions,
      List<String> stages,
      List<SharpeningStep> steps,
      List<Inspection> inspections,
      List<Noted> history) {
    public Session session() {
      return versions.get(versions.size() - 1).content();
    }

    private Stream<Photo> photos() {
      Stream<Inspection> replaced =
          history.stream()
              .map(noted -> noted.version().content())
              .filter(Inspection.class::isInstance)
              .map(Inspection.class::cast);
      return Stream.concat(inspections.stream(), replaced).flatMap(i -> i.photo().stream());
    }
  }

  /**
   * A cut set aside, or counted again.
   *
   * @param at when; empty if that is not known
   * @param reason why; empty if that is not in the package
   * @param countsAgain whether it counts again
   */
  public record Act(Optional<Instant> at, Optional<String> reason, boolean countsAgain) {}

  public static Map<String, Object> of(Journal journal, boolean personal) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("blades", standing(journal.blades(), b -> blade(b, personal), personal));
    json.put("filament_lots", standing(journal.lots(), JournalJson::lot, personal));
    List<Object> sessions = new ArrayList<>();
    for (Log log : journal.sessions()) {
      sessions.add(session(sessions.size() + 1, log, personal));
    }
    json.put("sessions", sessions);
    List<Object> acts = new ArrayList<>();
    journal.acts().forEach((cut, list) -> list.forEach(a -> acts.add(act(cut, a, personal))));
    json.put("set_aside", acts);
    return json;
  }

  private static <T> List<Map<String, Object>> standing(
      List<List<Version<T>>> items, Function<T, Map<String, Object>> writing, boolean personal) {
    return items.stream()
        .map(
            versions ->
                JournalHistory.with(
                    writing.apply(versions.get(versions.size() - 1).content()),
                    versions,
                    writing,
                    personal))
        .toList();
  }

  private static Map<String, Object> act(int cut, Act act, boolean personal) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("cut", cut);
    act.at().ifPresent(at -> json.put("at", at.toString()));
    json.put("counts_again", act.countsAgain());
    if (personal) {
      act.reason().ifPresent(why -> json.put("reason", why));
    }
    return json;
  }

  private static void put(Map<String, Object> json, String name, OptionalDouble value) {
    value.ifPresent(v -> json.put(name, v));
  }

  private static Map<String, Object> blade(Blade blade, boolean personal) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("label", blade.label());
    json.put("steel", blade.steel());
    put(json, "hardness_hrc", blade.hardnessHrc());
    put(json, "edge_angle_degrees", blade.edgeAngleDegrees());
    put(json, "thickness_behind_edge_mm", blade.thicknessBehindEdgeMm());
    put(json, "edge_length_mm", blade.edgeLengthMm());
    if (personal) {
      json.put("notes", blade.notes());
    }
    return json;
  }

  private static Map<String, Object> lot(FilamentLot lot) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("lot", lot.lot());
    json.put("material", lot.material());
    lot.figures().forEach((figure, value) -> json.put(figure.key(), value));
    return json;
  }

  private static Map<String, Object> session(int number, Log log, boolean personal) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("session", number);
    json.putAll(session(log.session(), personal));
    json.put("stages", log.stages());
    json.put("steps", log.steps().stream().map(step -> step(step, personal)).toList());
    json.put("inspections", log.inspections().stream().map(i -> look(i, personal)).toList());
    JournalHistory.with(json, log.versions(), s -> session(s, personal), personal);
    JournalHistory.put(json, log.history(), personal);
    return json;
  }

  private static Map<String, Object> session(Session s, boolean personal) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("name", s.name());
    json.put("blade", s.blade());
    s.equipment().filamentLot().ifPresent(lot -> json.put("filament_lot", lot));
    s.equipment().rig().ifPresent(rig -> json.put("rig", rig));
    s.equipment().calibration().ifPresent(id -> json.put("calibration", id));
    put(json, "room_celsius", s.roomCelsius());
    if (personal) {
      s.operator().ifPresent(alias -> json.put("operator", alias));
    }
    json.put("opened", s.opened().toString());
    s.closed().ifPresent(at -> json.put("closed", at.toString()));
    return json;
  }

  static Map<String, Object> step(SharpeningStep step, boolean personal) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("at", step.at().toString());
    json.put("stage", step.stage());
    json.put("abrasive", step.abrasive());
    step.grain().grit().ifPresent(grit -> json.put("grit", grit));
    put(json, "micron", step.grain().micron());
    step.direction().ifPresent(way -> json.put("direction", way.word()));
    step.strokesPerSide().ifPresent(n -> json.put("strokes_per_side", n));
    step.pressure().ifPresent(p -> json.put("pressure", p.word()));
    if (personal) {
      json.put("note", step.note());
    }
    return json;
  }

  static Map<String, Object> look(Inspection inspection, boolean personal) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("at", inspection.at().toString());
    json.put("stage", inspection.stage());
    json.put("method", inspection.look().method().word());
    put(json, "magnification", inspection.look().magnification());
    json.put("side", inspection.side().word());
    inspection.place().ifPresent(place -> json.put("place", place.word()));
    json.put("finding", inspection.finding().word());
    inspection.photo().ifPresent(photo -> json.put("photo", photo.name()));
    if (personal) {
      json.put("note", inspection.note());
    }
    return json;
  }

  public static Journal read(JsonNode root) {
    List<Log> sessions = new ArrayList<>();
    for (JsonNode node : root.member("sessions").elements()) {
      if (node.member("session").whole() != sessions.size() + 1) {
        throw new RefusedPackage(
            node.place() + ": sessions are not numbered from 1; ask the sender");
      }
      sessions.add(node.as(JournalJson::log));
    }
    Map<Integer, List<Act>> acts = new TreeMap<>();
    if (root.member("set_aside").present()) {
      for (JsonNode node : root.member("set_aside").elements()) {
        acts.computeIfAbsent(node.member("cut").integer(), cut -> new ArrayList<>())
            .add(readAct(node));
      }
    }
    return new Journal(
        versions(root.member("blades"), JournalJson::readBlade),
        versions(root.member("filament_lots"), JournalJson::readLot),
        sessions,
        acts);
  }

  private static Act readAct(JsonNode node) {
    JsonNode again = node.member("counts_again");
    return new Act(
        node.member("at").optionalInstant(),
        node.member("reason").optionalText(),
        again.present() && again.truth());
  }

  private static <T> List<List<Version<T>>> versions(JsonNode list, Function<JsonNode, T> reading) {
    return list.elements().stream()
        .map(node -> JournalHistory.readVersions(node, reading))
        .toList();
  }

  private static <T> List<T> each(JsonNode list, Function<JsonNode, T> reading) {
    return list.elements().stream().map(node -> node.as(reading)).toList();
  }

  private static Blade readBlade(JsonNode node) {
    return new Blade(
        node.member("label").text(),
        node.member("steel").text(),
        node.member("hardness_hrc").optionalReal(),
        node.member("edge_angle_degrees").optionalReal(),
        node.member("thickness_behind_edge_mm").optionalReal(),
        node.member("edge_length_mm").optionalReal(),
        OptionalDouble.empty(),
        node.member("notes").textOr(""));
  }

  private static FilamentLot readLot(JsonNode node) {
    return FilamentLot.of(
        node.member("lot").text(),
        node.member("material").text(),
        figure -> node.member(figure.key()).optionalReal());
  }

  private static Log log(JsonNode node) {
    return new Log(
        JournalHistory.readVersions(node, JournalJson::readSession),
        node.member("stages").elements().stream().map(JsonNode::text).toList(),
        each(node.member("steps"), JournalJson::readStep),
        each(node.member("inspections"), JournalJson::readLook),
        JournalHistory.readEntries(node));
  }

  private static Session readSession(JsonNode node) {
    return new Session(
        node.member("name").text(),
        node.member("blade").text(),
        new Equipment(
            node.member("filament_lot").optionalText(),
            node.member("rig").optionalText(),
            node.member("calibration").optionalText()),
        node.member("room_celsius").optionalReal(),
        node.member("operator").optionalText(),
        node.member("opened").instant(),
        node.member("closed").optionalInstant());
  }

  static SharpeningStep readStep(JsonNode node) {
    return new SharpeningStep(
        node.member("at").instant(),
        node.member("stage").text(),
        node.member("abrasive").text(),
        new Grain(node.member("grit").optionalInteger(), node.member("micron").optionalReal()),
        optional(node.member("direction"), EdgeDirection.class),
        node.member("strokes_per_side").optionalInteger(),
        optional(node.member("pressure"), Pressure.class),
        node.member("note").textOr(""));
  }

  static Inspection readLook(JsonNode node) {
    Method method = node.member("method").word(Method.class);
    Optional<Place> place = node.member("place").optionalText().map(Place::parse);
    return new Inspection(
        node.member("at").instant(),
        node.member("stage").text(),
        new Look(method, node.member("magnification").optionalReal()),
        node.member("side").word(Side.class),
        place,
        node.member("finding").word(Finding.class),
        node.member("note").textOr(method == Method.FREE ? NO_NOTE : ""),
        node.member("photo").optionalText().map(name -> photo(node, name)));
  }

  private static Photo photo(JsonNode node, String name) {
    return Photo.named(name)
        .orElseThrow(
            () ->
                new RefusedPackage(
                    node.place()
                        + ".photo '"
                        + RefusedPackage.shown(name)
                        + "' is no name of a photo; ask the sender"));
  }

  private static <E extends Enum<E>> Optional<E> optional(JsonNode node, Class<E> type) {
    return node.present() ? Optional.of(node.word(type)) : Optional.empty();
  }
}
