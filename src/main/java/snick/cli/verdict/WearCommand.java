package snick.cli.verdict;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedStore;
import snick.cli.option.SessionChoice;
import snick.cli.terminal.CsvTable;
import snick.cli.terminal.Figures;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Said;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.verdict.study.Wear;

/** How the force rises with work. */
@Command(
    name = "wear",
    description = {
      "Force against work done, with interval, and the work at which half of the gain is lost.",
      "Work of each stage of a session with --at, or a table work,value (gf) with --csv."
    },
    footerHeading = "%nExamples (invented):%n",
    footer = {
      "  snick wear --session board --at 'fresh=0' --at 'after 20=20' \\",
      "    --at 'after 40=40' --unit metres --material cardboard --dull 210",
      "  snick wear --csv wear.csv --unit cuts --material rope --json",
    })
public final class WearCommand extends DataCommand implements Runnable {
  @Mixin private SessionChoice session;

  @Option(
      names = "--at",
      paramLabel = "STAGE=WORK",
      description = "Work done before this stage's cuts; once for each stage.")
  private Map<String, Double> workByStage = new LinkedHashMap<>();

  @Option(names = "--csv", paramLabel = "FILE", description = "Columns work,value; - is stdin.")
  private Optional<String> csv = Optional.empty();

  @Option(
      names = "--unit",
      paramLabel = "WORD",
      required = true,
      description = "Unit of the work, for example metres or cuts.")
  private String unit;

  @Option(names = "--material", paramLabel = "TEXT", required = true, description = "What was cut.")
  private String material;

  @Option(
      names = "--dull",
      paramLabel = "GF",
      description = "Force before the sharpening, gf: without it no half of the gain.")
  private Optional<Double> dullGf = Optional.empty();

  @Option(names = "--json", description = "As one JSON object, every digit.")
  private boolean json;

  @Override
  public void run() {
    if (csv.isPresent() == !workByStage.isEmpty()) {
      throw Refusal.usage("give either --csv FILE or --at STAGE=WORK for each stage");
    }
    List<Wear.Point> points = csv.map(WearCommand::ofFile).orElseGet(this::ofSession);
    Wear wear = Wear.of(points, new Wear.Work(unit, material), dullGf);
    tell(
        json,
        () -> object(wear),
        () -> {
          println("Wear: " + (wear instanceof Wear.Rising ? "the force rises" : "no rise shown"));
          ComparisonText.print(out(), wear.reason());
        });
  }

  private static List<Wear.Point> ofFile(String file) {
    return CsvTable.read(file, List.of("work", "value")).rows().stream()
        .map(row -> new Wear.Point(row.required("work"), row.required("value")))
        .toList();
  }

  private List<Wear.Point> ofSession() {
    try (StoreReader store = OpenedStore.toRead(data)) {
      SessionEvidence evidence = SessionEvidence.read(store, session.toRead(store));
      return workByStage.entrySet().stream()
          .flatMap(
              at ->
                  evidence.stage(at.getKey()).cuts().stream()
                      .map(cut -> new Wear.Point(at.getValue(), cut.force().gramForce())))
          .toList();
    }
  }

  private static Map<String, Object> object(Wear wear) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("rises", wear instanceof Wear.Rising);
    if (wear instanceof Wear.Rising rising) {
      object.put("sharp", rising.sharpGf());
      object.put("rise_per_unit", rising.risePerUnitGf());
      object.put("rise_per_unit_ci95", Figures.ends(rising.risePerUnitCi95Gf()));
      object.put("half_gain_at", rising.halfGainAt().map(Wear.HalfGain::work).orElse(null));
      object.put(
          "half_gain_ci95", ComparisonJson.ends(rising.halfGainAt().map(Wear.HalfGain::ci95)));
      object.put(
          "half_gain_extrapolated",
          rising.halfGainAt().map(Wear.HalfGain::extrapolated).orElse(null));
    } else if (wear instanceof Wear.NotShown not) {
      object.put("rise_per_unit_ci95", Figures.ends(not.risePerUnitCi95Gf()));
    }
    object.put("reason", Said.raw(wear.reason().text()));
    return object;
  }
}
