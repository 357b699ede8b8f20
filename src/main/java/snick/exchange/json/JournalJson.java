package snick.exchange.json;

import java.time.Instant;
import java.util.ArrayList;
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
import snick.json.Json;
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
    List<Object> acts = new ArrayList<>();
    journal.acts().forEach((cut, list) -> list.forEach(a -> acts.add(act(cut, a, personal))));
    return Json.object(
        "blades", standing(journal.blades(), b -> blade(b, personal), personal),
        "filament_lots", standing(journal.lots(), JournalJson::lot, personal),
        "sessions", Numbered.write(journal.sessions(), (n, log) -> session(n, log, personal)),
        "set_aside", acts);
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
    return Json.object(
        "cut", cut,
        "at", act.at().map(at -> at.toString()),
        "counts_again", act.countsAgain(),
        "reason", act.reason().filter(each -> personal));
  }

  private static Map<String, Object> blade(Blade blade, boolean personal) {
    return Json.object(
        "label", blade.label(),
        "steel", blade.steel(),
        "hardness_hrc", blade.hardnessHrc(),
        "edge_angle_degrees", blade.edgeAngleDegrees(),
        "thickness_behind_edge_mm", blade.thicknessBehindEdgeMm(),
        "edge_length_mm", blade.edgeLengthMm(),
        "notes", Json.when(personal, blade.notes()));
  }

  private static Map<String, Object> lot(FilamentLot lot) {
    Map<String, Object> json = Json.object("lot", lot.lot(), "material", lot.material());
    lot.figures().forEach((figure, value) -> json.put(figure.key(), value));
    return json;
  }

  private static Map<String, Object> session(int number, Log log, boolean personal) {
    Map<String, Object> json = Json.object("session", number);
    json.putAll(session(log.session(), personal));
    json.put("stages", log.stages());
    json.put("steps", log.steps().stream().map(step -> step(step, personal)).toList());
    json.put("inspections", log.inspections().stream().map(i -> look(i, personal)).toList());
    JournalHistory.with(json, log.versions(), s -> session(s, personal), personal);
    JournalHistory.put(json, log.history(), personal);
    return json;
  }

  private static Map<String, Object> session(Session s, boolean personal) {
    return Json.object(
        "name", s.name(),
        "blade", s.blade(),
        "filament_lot", s.equipment().filamentLot(),
        "rig", s.equipment().rig(),
        "calibration", s.equipment().calibration(),
        "room_celsius", s.roomCelsius(),
        "operator", s.operator().filter(each -> personal),
        "opened", s.opened().toString(),
        "closed", s.closed().map(at -> at.toString()));
  }

  static Map<String, Object> step(SharpeningStep step, boolean personal) {
    return Json.object(
        "at", step.at().toString(),
        "stage", step.stage(),
        "abrasive", step.abrasive(),
        "grit", step.grain().grit(),
        "micron", step.grain().micron(),
        "direction", step.direction().map(way -> way.word()),
        "strokes_per_side", step.strokesPerSide(),
        "pressure", step.pressure().map(p -> p.word()),
        "note", Json.when(personal, step.note()));
  }

  static Map<String, Object> look(Inspection inspection, boolean personal) {
    return Json.object(
        "at", inspection.at().toString(),
        "stage", inspection.stage(),
        "method", inspection.look().method().word(),
        "magnification", inspection.look().magnification(),
        "side", inspection.side().word(),
        "place", inspection.place().map(place -> place.word()),
        "finding", inspection.finding().word(),
        "photo", inspection.photo().map(photo -> photo.name()),
        "note", Json.when(personal, inspection.note()));
  }

  public static Journal read(JsonNode root) {
    Map<Integer, List<Act>> acts = new TreeMap<>();
    for (JsonNode node : root.member("set_aside").elementsIfAny()) {
      acts.computeIfAbsent(node.member("cut").integer(), cut -> new ArrayList<>())
          .add(readAct(node));
    }
    List<Log> sessions = Numbered.read(root, "sessions", "session", JournalJson::log);
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
        node.member("stages").each(JsonNode::text),
        node.member("steps").each(JournalJson::readStep),
        node.member("inspections").each(JournalJson::readLook),
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
        node.member("direction").optional(w -> w.word(EdgeDirection.class)),
        node.member("strokes_per_side").optionalInteger(),
        node.member("pressure").optional(w -> w.word(Pressure.class)),
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
}
