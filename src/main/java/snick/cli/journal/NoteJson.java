package snick.cli.journal;

import java.util.LinkedHashMap;
import java.util.Map;
import snick.cli.terminal.Figures;
import snick.journal.Amendment;
import snick.journal.Blade;
import snick.journal.CutPlacement;
import snick.journal.EdgeDirection;
import snick.journal.Entry;
import snick.journal.FilamentLot;
import snick.journal.Inspection;
import snick.journal.Photo;
import snick.journal.Place;
import snick.journal.Pressure;
import snick.journal.Session;
import snick.journal.SharpeningStep;
import snick.journal.StageEntry;
import snick.json.Json;

/**
 * What stands in the journal as JSON objects; null in sessions and entries where nothing was noted.
 */
public final class NoteJson {
  private NoteJson() {}

  static Map<String, Object> of(Blade blade) {
    return Json.object(
        "label", blade.label(),
        "steel", blade.steel(),
        "hardness_hrc", blade.hardnessHrc(),
        "edge_angle_degrees", blade.edgeAngleDegrees(),
        "thickness_behind_edge_mm", blade.thicknessBehindEdgeMm(),
        "edge_length_mm", blade.edgeLengthMm(),
        "margin_gf", blade.marginGf(),
        "notes", blade.notes());
  }

  /** A filament lot. */
  public static Map<String, Object> of(FilamentLot lot) {
    Map<String, Object> object = Json.object("lot", lot.lot(), "material", lot.material());
    lot.figures().forEach((figure, value) -> object.put(figure.key(), value));
    return object;
  }

  static Map<String, Object> of(Session session) {
    return Json.object(
        "name", session.name(),
        "blade", session.blade(),
        "filament_lot", session.equipment().filamentLot().orElse(null),
        "rig", session.equipment().rig().orElse(null),
        "calibration", session.equipment().calibration().orElse(null),
        "room_celsius", Figures.orNull(session.roomCelsius()),
        "operator", session.operator().orElse(null),
        "opened", session.opened().toString(),
        "closed", session.closed().map(Object::toString).orElse(null));
  }

  static Map<String, Object> of(Entry<StageEntry> entry, boolean stands) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("entry", entry.id());
    object.put("recorded", entry.recorded().toString());
    object.put("corrects", entry.corrects().isPresent() ? entry.corrects().getAsLong() : null);
    object.put("why", entry.why());
    object.put("stands", stands);
    object.put("at", entry.content().at().toString());
    object.put("stage", entry.content().stage());
    putContent(object, entry.content());
    return object;
  }

  static Map<String, Object> amendment(Entry<Amendment> entry) {
    return Json.object(
        "entry", entry.id(),
        "recorded", entry.recorded().toString(),
        "kind", entry.content().kind().word(),
        "before", entry.content().before(),
        "after", entry.content().after(),
        "why", entry.why());
  }

  private static void putContent(Map<String, Object> object, StageEntry content) {
    if (content instanceof SharpeningStep step) {
      putStep(object, step);
    } else if (content instanceof Inspection inspection) {
      putInspection(object, inspection);
    } else if (content instanceof CutPlacement placement) {
      object.put("kind", "cut_placement");
      object.put("cut", placement.cut());
      object.put("place_mm", Figures.orNull(placement.placeMm()));
    } else {
      object.put("kind", "withdrawn");
    }
  }

  private static void putStep(Map<String, Object> object, SharpeningStep step) {
    object.put("kind", "step");
    object.put("abrasive", step.abrasive());
    object.put("grit", step.grain().grit().isPresent() ? step.grain().grit().getAsInt() : null);
    object.put("micron", Figures.orNull(step.grain().micron()));
    object.put("direction", step.direction().map(EdgeDirection::word).orElse(null));
    object.put(
        "strokes_per_side",
        step.strokesPerSide().isPresent() ? step.strokesPerSide().getAsInt() : null);
    object.put("pressure", step.pressure().map(Pressure::word).orElse(null));
    object.put("note", step.note());
  }

  private static void putInspection(Map<String, Object> object, Inspection inspection) {
    object.put("kind", "inspection");
    object.put("method", inspection.look().method().word());
    object.put("magnification", Figures.orNull(inspection.look().magnification()));
    object.put("side", inspection.side().word());
    object.put("place", inspection.place().map(Place::word).orElse(null));
    object.put("finding", inspection.finding().word());
    object.put("photo", inspection.photo().map(Photo::name).orElse(null));
    object.put("note", inspection.note());
  }
}
