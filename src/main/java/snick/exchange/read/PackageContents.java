package snick.exchange.read;

import java.util.List;
import java.util.Map;
import snick.cut.response.Response;
import snick.exchange.json.CalibrationJson;
import snick.exchange.json.JournalJson;
import snick.exchange.json.MissingForces;
import snick.exchange.json.RefusedPackage;
import snick.exchange.json.RigJson;
import snick.store.record.Credit;
import snick.store.record.StoredResponse;

/**
 * What a package holds beside its cuts.
 *
 * @param recordings recordings, numbered by place from 1
 * @param calibrations calibrations, numbered by place from 1
 * @param journal the journal
 * @param missing why cuts have no force
 * @param credits whose work it holds: its own first, then its sources, numbered from 1
 * @param responses responses of rigs by their id
 */
public record PackageContents(
    List<RigJson.Item> recordings,
    List<CalibrationJson.Item> calibrations,
    JournalJson.Journal journal,
    MissingForces missing,
    List<Credit> credits,
    Map<String, StoredResponse> responses) {
  List<Credit> sources() {
    return credits.subList(1, credits.size());
  }

  /** The response of an id; unknown if the id is empty. */
  Response response(String id) {
    if (id.isEmpty()) {
      return Response.unknown();
    }
    StoredResponse found = responses.get(id);
    if (found == null) {
      throw new RefusedPackage(
          "response " + RefusedPackage.shown(id) + " is not in the package; ask the sender");
    }
    return found.response();
  }
}
