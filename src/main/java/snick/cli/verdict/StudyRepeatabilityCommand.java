package snick.cli.verdict;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedJournal;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.CsvTable;
import snick.cli.terminal.Figures;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Said;
import snick.cli.terminal.Table;
import snick.json.Json;
import snick.store.KeptStudy;
import snick.store.SessionEvidence;
import snick.store.Store;
import snick.store.StoreReader;
import snick.verdict.comparison.RigRepeatability;
import snick.verdict.statistic.Readings;
import snick.verdict.study.RepeatabilityStudy;

/** One-way repeatability study. */
@Command(
    name = "repeatability",
    description = {
      "One-way study on a reference edge: scatter within groups is the rig's repeatability.",
      "Groups: each session named; of one session its stages; or --csv with group,value (gf)."
    },
    footerHeading = "%nExamples (invented):%n",
    footer = {
      "  snick study repeatability monday tuesday thursday",
      "  snick study repeatability monday --keep      verdicts use it from now on",
      "  snick study repeatability --csv study.csv --json",
    })
final class StudyRepeatabilityCommand extends DataCommand implements Runnable {
  private static final int CUTS_A_STAGE = 5;

  @Parameters(arity = "0..*", paramLabel = "SESSION", description = "Sessions of the study.")
  private List<String> sessions = List.of();

  @Option(names = "--csv", paramLabel = "FILE", description = "Columns group,value; - is stdin.")
  private Optional<String> csv = Optional.empty();

  @Option(
      names = "--keep",
      description = "Keep it as the rig's repeatability: verdicts use the last one kept.")
  private boolean keep;

  @Option(
      names = "--rig",
      paramLabel = "ID",
      description =
          "Keep it for this rig (default: the rig of the first session, or the only one).")
  private Optional<String> rig = Optional.empty();

  @Option(names = "--json", description = "As one JSON object, every digit.")
  private boolean json;

  @Override
  public void run() {
    if (csv.isPresent() == !sessions.isEmpty()) {
      throw Refusal.usage("give either sessions or --csv FILE");
    }
    RepeatabilityStudy study =
        RepeatabilityStudy.of(csv.map(StudyRepeatabilityCommand::ofFile).orElseGet(this::stored));
    tell(json, () -> object(study), () -> print(out(), study));
    if (keep) {
      keep(study.rig());
    }
  }

  private static List<Readings> ofFile(String file) {
    Map<String, List<Double>> groups = new LinkedHashMap<>();
    for (CsvTable.Row row : CsvTable.read(file, List.of("group", "value")).rows()) {
      groups.computeIfAbsent(row.text("group"), g -> new ArrayList<>()).add(row.required("value"));
    }
    return groups.entrySet().stream().map(g -> readings(g.getKey(), g.getValue())).toList();
  }

  private static Readings readings(String name, List<Double> gramForce) {
    return Readings.ofGramForce(
        name, gramForce.stream().mapToDouble(Double::doubleValue).toArray());
  }

  private List<Readings> stored() {
    try (StoreReader store = OpenedStore.toRead(data)) {
      List<SessionEvidence> read =
          sessions.stream().map(name -> SessionEvidence.read(store, name)).toList();
      return read.size() == 1
          ? read.get(0).stages().stream().flatMap(s -> s.readings().stream()).toList()
          : read.stream().map(StudyRepeatabilityCommand::whole).toList();
    }
  }

  private static Readings whole(SessionEvidence session) {
    List<Double> gramForce =
        session.stages().stream()
            .flatMap(stage -> stage.cuts().stream())
            .map(cut -> cut.force().gramForce())
            .toList();
    return readings(session.log().session().name(), gramForce);
  }

  private static void print(PrintWriter out, RepeatabilityStudy study) {
    Table table = new Table("COMPONENT", ">SD gf", "95 %");
    table.row(
        "repeatability", Figures.number(study.withinSdGf()), Figures.range(study.withinSdCi95Gf()));
    table.row("between groups", Figures.number(study.betweenSdGf()), "");
    table.row("one cut, any group", Figures.number(study.totalSdGf()), "");
    table.print(out);
    out.println(
        "smallest true difference shown with %s cuts a stage: %s"
            .formatted(
                CUTS_A_STAGE, Figures.gf(study.rig().smallestShownDifferenceGf(CUTS_A_STAGE))));
    ComparisonText.print(out, study.reason());
  }

  private void keep(RigRepeatability repeatability) {
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      String id =
          rig.or(() -> rigOfFirst(journal.reader()))
              .or(() -> KeptStudy.only(journal.reader()))
              .orElseThrow(() -> Refusal.usage("--keep needs --rig ID: no session names one"));
      Store store = journal.store();
      store.add(KeptStudy.evidence(id, OpenedJournal.now(), repeatability));
      err().println("snick: kept for rig " + PlainText.inert(id));
    }
  }

  private Optional<String> rigOfFirst(StoreReader store) {
    return sessions.stream()
        .findFirst()
        .flatMap(name -> SessionEvidence.read(store, name).measured().equipment().rig());
  }

  private static Map<String, Object> object(RepeatabilityStudy study) {
    return Json.object(
        "groups", study.groups(),
        "cuts", study.cuts(),
        "mean", study.meanGf(),
        "repeatability_sd", study.withinSdGf(),
        "repeatability_sd_ci95", Figures.ends(study.withinSdCi95Gf()),
        "between_sd", study.betweenSdGf(),
        "total_sd", study.totalSdGf(),
        "f", study.anova().f(),
        "p", study.anova().p(),
        "intraclass_correlation", study.share(),
        "intraclass_correlation_ci95", Figures.ends(study.shareCi95()),
        "smallest_shown_difference_5_cuts", study.rig().smallestShownDifferenceGf(CUTS_A_STAGE),
        "flagged", study.flagged().stream().map(g -> g.valueGf()).toList(),
        "reason", Said.raw(study.reason().text()));
  }
}
