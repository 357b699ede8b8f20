package snick.verdict;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import snick.journal.EdgeDirection;
import snick.journal.Inspection;
import snick.journal.InspectionWords;
import snick.journal.SharpeningStep;
import snick.journal.SharpeningStep.Grain;
import snick.journal.Stage;
import snick.quantity.Force;
import snick.verdict.burr.StageEvidence;
import snick.verdict.burr.StageEvidence.PlacedCut;

/** Invented evidence, written short. */
public final class Notes {
  private Notes() {}

  public static StageEvidence stage(String name, List<PlacedCut> cuts, String... inspections) {
    Stage stage = new Stage(1, name);
    List<Inspection> looks = new ArrayList<>();
    for (String words : inspections) {
      looks.add(InspectionWords.parse(words).complete(Instant.EPOCH, stage, Optional.empty()));
    }
    return new StageEvidence(stage, cuts, looks, List.of());
  }

  public static StageEvidence after(EdgeDirection direction, int grit, StageEvidence stage) {
    SharpeningStep step =
        new SharpeningStep(
            Instant.EPOCH,
            stage.stage().name(),
            "strop",
            new Grain(
                grit == 0 ? OptionalInt.empty() : OptionalInt.of(grit), OptionalDouble.empty()),
            Optional.of(direction),
            OptionalInt.empty(),
            Optional.empty(),
            "");
    return new StageEvidence(stage.stage(), stage.cuts(), stage.inspections(), List.of(step));
  }

  public static List<PlacedCut> cuts(double... gf) {
    List<PlacedCut> cuts = new ArrayList<>();
    for (int i = 0; i < gf.length; i++) {
      cuts.add(cut(gf[i], 10 * (i + 1), false));
    }
    return cuts;
  }

  public static PlacedCut cut(double gf, double placeMm, boolean uneven) {
    return new PlacedCut(Force.ofGramForce(gf), OptionalDouble.of(placeMm), uneven);
  }
}
