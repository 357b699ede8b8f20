package snick.cli.verdict;

import java.io.PrintWriter;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.CsvTable;
import snick.cli.terminal.Figures;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Table;
import snick.json.Json;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.verdict.study.CrossedStudy;

/** Crossed study: edges by operators. */
@Command(
    name = "crossed",
    description = {
      "Crossed study: every operator cuts every edge equally often; splits the scatter into rig,"
          + " operator and edge. Sessions with blade and operator, or --csv with"
          + " part,operator,value (gf)."
    },
    footerHeading = "%nExamples (invented):%n",
    footer = {
      "  snick study crossed ref1-anna ref1-ben ref2-anna ref2-ben",
      "  snick study crossed --csv study.csv --json",
    })
final class StudyCrossedCommand extends DataCommand implements Runnable {
  @Parameters(arity = "0..*", paramLabel = "SESSION", description = "Sessions of the study.")
  private List<String> sessions = List.of();

  @Option(
      names = "--csv",
      paramLabel = "FILE",
      description = "Columns part,operator,value; - is stdin.")
  private Optional<String> csv = Optional.empty();

  @Option(names = "--json", description = "As one JSON object, every digit.")
  private boolean json;

  @Override
  public void run() {
    if (csv.isPresent() == !sessions.isEmpty()) {
      throw Refusal.usage("give either sessions or --csv FILE");
    }
    CrossedStudy study =
        CrossedStudy.of(csv.map(StudyCrossedCommand::ofFile).orElseGet(this::stored));
    tell(json, () -> object(study), () -> print(out(), study));
  }

  private static List<CrossedStudy.Reading> ofFile(String file) {
    return CsvTable.read(file, List.of("part", "operator", "value")).rows().stream()
        .map(
            row ->
                new CrossedStudy.Reading(
                    row.text("part"), row.text("operator"), row.required("value")))
        .toList();
  }

  private List<CrossedStudy.Reading> stored() {
    try (StoreReader store = OpenedStore.toRead(data)) {
      return sessions.stream()
          .map(name -> SessionEvidence.read(store, name))
          .flatMap(StudyCrossedCommand::readings)
          .toList();
    }
  }

  private static Stream<CrossedStudy.Reading> readings(SessionEvidence session) {
    String operator =
        session
            .log()
            .session()
            .operator()
            .orElseThrow(
                () ->
                    Refusal.badInput(
                        "session '"
                            + session.log().session().name()
                            + "' names no operator: snick session correct --operator ALIAS"));
    return session.stages().stream()
        .flatMap(stage -> stage.cuts().stream())
        .map(
            cut ->
                new CrossedStudy.Reading(
                    session.blade().label(), operator, cut.force().gramForce()));
  }

  private static void print(PrintWriter out, CrossedStudy study) {
    CrossedStudy.Components c = study.components();
    Table table = new Table("COMPONENT", ">SD gf", ">VARIANCE gf²");
    row(table, "repeatability (the rig)", c.repeatability());
    row(table, "operator", c.operator());
    row(table, "operator by edge", c.interaction());
    row(table, "reproducibility", c.reproducibility());
    row(table, "measuring, all", c.measuring());
    row(table, "edges", c.part());
    row(table, "all", c.total());
    table.print(out);
    out.println(
        "measuring is %s of all scatter (standard deviations); interaction %s%s"
            .formatted(
                Figures.percent(c.measuringShare()),
                Figures.p(study.table().interactionP()),
                study.pooled() ? ", pooled with the repeatability" : ", kept"));
    out.println(
        "Rule: two-way random-effects analysis of variance; the interaction is pooled if its p is"
            + " above "
            + Numbers.fixed(CrossedStudy.POOL_ABOVE, 2)
            + " (common practice, no source).");
  }

  private static void row(Table table, String name, double variance) {
    table.row(name, Figures.number(Math.sqrt(variance)), Numbers.fixed(variance, 3));
  }

  private static Map<String, Object> object(CrossedStudy study) {
    CrossedStudy.Components c = study.components();
    return Json.object(
        "repeatability_variance", c.repeatability(),
        "operator_variance", c.operator(),
        "interaction_variance", c.interaction(),
        "part_variance", c.part(),
        "reproducibility_variance", c.reproducibility(),
        "total_variance", c.total(),
        "measuring_share", c.measuringShare(),
        "distinct_groups", c.distinctGroups(),
        "interaction_p", study.table().interactionP(),
        "pooled", study.pooled());
  }
}
