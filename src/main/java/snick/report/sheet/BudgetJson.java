package snick.report.sheet;

import java.util.Map;
import snick.force.budget.CombinedUncertainty;
import snick.force.budget.Contribution;
import snick.json.Json;

/** The uncertainty of a force, source by source, as JSON; infinite degrees of freedom left out. */
public final class BudgetJson {
  private BudgetJson() {}

  public static Map<String, Object> of(CombinedUncertainty at) {
    return Json.object(
        "u_n", at.standardNewtons(),
        "degrees_of_freedom", Json.finite(at.degreesOfFreedom()),
        "k", at.coverageFactor(),
        "expanded_n", at.expandedNewtons(),
        "contributions", at.parts().stream().map(BudgetJson::of).toList());
  }

  private static Map<String, Object> of(Contribution part) {
    return Json.object(
        "source", part.source().word(),
        "distribution", part.distribution().word(),
        "u_n", part.standardUncertaintyNewtons(),
        "degrees_of_freedom", Json.finite(part.degreesOfFreedom()));
  }
}
