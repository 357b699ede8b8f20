package snick.exchange;

import java.util.List;
import java.util.Map;
import snick.cut.response.Response;
import snick.force.budget.Calibration;
import snick.store.Credit;
import snick.store.StoredResponse;

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
record PackageContents(
    List<RigJson.Item> recordings,
    List<CalibrationJson.Item> calibrations,
    JournalJson.Journal journal,
    MissingForces missing,
    List<Credit> credits,
    Map<String, StoredResponse> responses) {
  List<Credit> sources() {
    return credits.subList(1, credits.size());
  }

  Calibration calibration(int number) {
    return calibrations.get(number - 1).calibration();
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
