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
import snick.json.JsonForm;
import snick.json.JsonNode;
import snick.store.record.Noted;
import snick.store.record.Version;

/**
 * {@code journal.json}: the person's side, as it stands, and what corrections replaced beside it.
 */
public final class JournalJson {
  public static final String FILE = "journal.json";
  static final String NO_NOTE = "(note not in the package)";

  private static final JsonForm<Blade> BLADE =
      JsonForm.of(
          Blade.class,
          JsonForm.member("label", JsonNode::text),
          JsonForm.member("steel", JsonNode::text),
          JsonForm.member("hardness_hrc", JsonNode::optionalReal),
          JsonForm.member("edge_angle_degrees", JsonNode::optionalReal),
          JsonForm.member("thickness_behind_edge_mm", JsonNode::optionalReal),
          JsonForm.member("edge_length_mm", JsonNode::optionalReal),
          JsonForm.untold(OptionalDouble.empty()),
          JsonForm.member("notes", notes -> notes.textOr("")));

  private static final JsonForm<Session> SESSION =
      JsonForm.of(
          Session.class,
          JsonForm.member("name", JsonNode::text),
          JsonForm.member("blade", JsonNode::text),
          JsonForm.of(
                  Equipment.class,
                  JsonForm.member("filament_lot", JsonNode::optionalText),
                  JsonForm.member("rig", JsonNode::optionalText),
                  JsonForm.member("calibration", JsonNode::optionalText))
              .amongTheOthers(),
          JsonForm.member("room_celsius", JsonNode::optionalReal),
          JsonForm.member("operator", JsonNode::optionalText),
          JsonForm.instant("opened"),
          JsonForm.optional("closed", Instant::toString, JsonNode::instant));

  static final JsonForm<SharpeningStep> STEP =
      JsonForm.of(
          SharpeningStep.class,
          JsonForm.instant("at"),
          JsonForm.member("stage", JsonNode::text),
          JsonForm.member("abrasive", JsonNode::text),
          JsonForm.of(
                  Grain.class,
                  JsonForm.member("grit", JsonNode::optionalInteger),
                  JsonForm.member("micron", JsonNode::optionalReal))
              .amongTheOthers(),
          JsonForm.optional("direction", EdgeDirection::word, way -> way.word(EdgeDirection.class)),
          JsonForm.member("strokes_per_side", JsonNode::optionalInteger),
          JsonForm.optional("pressure", Pressure::word, way -> way.word(Pressure.class)),
          JsonForm.member("note", note -> note.textOr("")));

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
    Map<String, Object> json = BLADE.write(blade);
    return personal ? json : Json.without(json, "notes");
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

  private static Map<String, Object> session(Session session, boolean personal) {
    Map<String, Object> json = SESSION.write(session);
    return personal ? json : Json.without(json, "operator");
  }

  static Map<String, Object> step(SharpeningStep step, boolean personal) {
    Map<String, Object> json = STEP.write(step);
    return personal ? json : Json.without(json, "note");
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
        versions(root.member("blades"), BLADE::read),
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

  private static FilamentLot readLot(JsonNode node) {
    return FilamentLot.of(
        node.member("lot").text(),
        node.member("material").text(),
        figure -> node.member(figure.key()).optionalReal());
  }

  private static Log log(JsonNode node) {
    return new Log(
        JournalHistory.readVersions(node, SESSION::read),
        node.member("stages").each(JsonNode::text),
        node.member("steps").each(STEP::read),
        node.member("inspections").each(JournalJson::readLook),
        JournalHistory.readEntries(node));
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
