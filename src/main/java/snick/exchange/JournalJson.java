package snick.exchange;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import snick.journal.Blade;
import snick.journal.EdgeDirection;
import snick.journal.FilamentLot;
import snick.journal.Finding;
import snick.journal.Inspection;
import snick.journal.Method;
import snick.journal.Place;
import snick.journal.Pressure;
import snick.journal.Session;
import snick.journal.SharpeningStep;
import snick.journal.Side;

/**
 * {@code journal.json}: the person's side, as it stands: corrections have taken effect, what they
 * replaced is left out.
 */
final class JournalJson {
  static final String FILE = "journal.json";
  static final String NO_NOTE = "(note not in the package)";

  private JournalJson() {}

  /**
   * The journal of a package.
   *
   * @param blades blades of its sessions
   * @param lots filament lots of its sessions
   * @param sessions sessions, numbered by place from 1
   * @param reasons why cuts were set aside, by number of the cut
   */
  record Journal(
      List<Blade> blades,
      List<FilamentLot> lots,
      List<Log> sessions,
      Map<Integer, String> reasons) {}

  /**
   * A session with what was noted in it, cut places excepted.
   *
   * @param session the session
   * @param stages names of its stages in order
   * @param steps steps that stand
   * @param inspections inspections that stand
   */
  record Log(
      Session session,
      List<String> stages,
      List<SharpeningStep> steps,
      List<Inspection> inspections) {}

  static Map<String, Object> of(Journal journal, boolean personal) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("blades", journal.blades().stream().map(b -> blade(b, personal)).toList());
    json.put("filament_lots", journal.lots().stream().map(JournalJson::lot).toList());
    List<Object> sessions = new ArrayList<>();
    for (Log log : journal.sessions()) {
      sessions.add(session(sessions.size() + 1, log, personal));
    }
    json.put("sessions", sessions);
    if (personal) {
      List<Object> reasons = new ArrayList<>();
      journal.reasons().forEach((cut, why) -> reasons.add(reason(cut, why)));
      json.put("set_aside", reasons);
    }
    return json;
  }

  private static Map<String, Object> reason(int cut, String why) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("cut", cut);
    json.put("reason", why);
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
    json.put("diameter_mm", lot.diameterMm());
    return json;
  }

  private static Map<String, Object> session(int number, Log log, boolean personal) {
    Session s = log.session();
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("session", number);
    json.put("name", s.name());
    json.put("blade", s.blade());
    s.filamentLot().ifPresent(lot -> json.put("filament_lot", lot));
    s.rig().ifPresent(rig -> json.put("rig", rig));
    s.calibration().ifPresent(id -> json.put("calibration", id));
    put(json, "room_celsius", s.roomCelsius());
    if (personal) {
      s.operator().ifPresent(alias -> json.put("operator", alias));
    }
    json.put("opened", s.opened().toString());
    s.closed().ifPresent(at -> json.put("closed", at.toString()));
    json.put("stages", log.stages());
    json.put("steps", log.steps().stream().map(step -> step(step, personal)).toList());
    json.put("inspections", log.inspections().stream().map(i -> look(i, personal)).toList());
    return json;
  }

  private static Map<String, Object> step(SharpeningStep step, boolean personal) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("at", step.at().toString());
    json.put("stage", step.stage());
    json.put("abrasive", step.abrasive());
    step.grit().ifPresent(grit -> json.put("grit", grit));
    put(json, "micron", step.micron());
    step.direction().ifPresent(way -> json.put("direction", way.word()));
    step.strokesPerSide().ifPresent(n -> json.put("strokes_per_side", n));
    step.pressure().ifPresent(p -> json.put("pressure", p.word()));
    if (personal) {
      json.put("note", step.note());
    }
    return json;
  }

  private static Map<String, Object> look(Inspection inspection, boolean personal) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("at", inspection.at().toString());
    json.put("stage", inspection.stage());
    json.put("method", inspection.method().word());
    put(json, "magnification", inspection.magnification());
    json.put("side", inspection.side().word());
    inspection.place().ifPresent(place -> json.put("place", place.word()));
    json.put("finding", inspection.finding().word());
    if (personal) {
      json.put("note", inspection.note());
    }
    return json;
  }

  static Journal read(JsonNode root) {
    List<Log> sessions = new ArrayList<>();
    for (JsonNode node : root.member("sessions").elements()) {
      if (node.member("session").whole() != sessions.size() + 1) {
        throw new RefusedPackage(
            node.place() + ": sessions are not numbered from 1; ask the sender");
      }
      sessions.add(node.as(JournalJson::log));
    }
    Map<Integer, String> reasons = new LinkedHashMap<>();
    if (root.member("set_aside").present()) {
      for (JsonNode node : root.member("set_aside").elements()) {
        reasons.put(node.member("cut").integer(), node.member("reason").text());
      }
    }
    return new Journal(
        each(root.member("blades"), JournalJson::readBlade),
        each(root.member("filament_lots"), JournalJson::readLot),
        sessions,
        reasons);
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
        node.member("notes").textOr(""));
  }

  private static FilamentLot readLot(JsonNode node) {
    return new FilamentLot(
        node.member("lot").text(),
        node.member("material").text(),
        node.member("diameter_mm").real());
  }

  private static Log log(JsonNode node) {
    Session session =
        new Session(
            node.member("name").text(),
            node.member("blade").text(),
            node.member("filament_lot").optionalText(),
            node.member("rig").optionalText(),
            node.member("calibration").optionalText(),
            node.member("room_celsius").optionalReal(),
            node.member("operator").optionalText(),
            node.member("opened").instant(),
            node.member("closed").optionalInstant());
    return new Log(
        session,
        node.member("stages").elements().stream().map(JsonNode::text).toList(),
        each(node.member("steps"), JournalJson::readStep),
        each(node.member("inspections"), JournalJson::readLook));
  }

  private static SharpeningStep readStep(JsonNode node) {
    return new SharpeningStep(
        node.member("at").instant(),
        node.member("stage").text(),
        node.member("abrasive").text(),
        node.member("grit").optionalInteger(),
        node.member("micron").optionalReal(),
        optional(node.member("direction"), EdgeDirection.class),
        node.member("strokes_per_side").optionalInteger(),
        optional(node.member("pressure"), Pressure.class),
        node.member("note").textOr(""));
  }

  private static Inspection readLook(JsonNode node) {
    Method method = node.member("method").word(Method.class);
    Optional<Place> place = node.member("place").optionalText().map(Place::parse);
    return new Inspection(
        node.member("at").instant(),
        node.member("stage").text(),
        method,
        node.member("magnification").optionalReal(),
        node.member("side").word(Side.class),
        place,
        node.member("finding").word(Finding.class),
        node.member("note").textOr(method == Method.FREE ? NO_NOTE : ""));
  }

  private static <E extends Enum<E>> Optional<E> optional(JsonNode node, Class<E> type) {
    return node.present() ? Optional.of(node.word(type)) : Optional.empty();
  }
}
