package snick.cli.journal;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import snick.cli.option.ReadingCommand;
import snick.cli.option.SessionArgument;
import snick.cli.terminal.PlainText;
import snick.journal.CutPlacement;
import snick.journal.Entry;
import snick.journal.SessionLog;
import snick.journal.SetAside;
import snick.journal.Stage;
import snick.journal.StageEntry;
import snick.json.Json;
import snick.store.JournalReader;
import snick.store.SessionEvidence;
import snick.store.StoreReader;

/** Shows a session with all that was noted in it. */
@Command(
    name = "show",
    description = "Show a session: stages, steps, inspections and cuts, with the entry numbers.",
    footer = {
      "  snick session show",
      "  snick session show evening --all      with what was corrected",
      "  snick session show evening --json",
    })
final class SessionShowCommand extends ReadingCommand {
  @Mixin private SessionArgument named;

  @Option(names = "--all", description = "Also entries that were corrected.")
  private boolean all;

  @Option(names = "--json", description = "As one JSON object; every entry, corrected or not.")
  private boolean json;

  @Override
  protected void read(StoreReader store) {
    String session = named.toRead(store);
    SessionEvidence evidence = SessionEvidence.read(store, session);
    tell(json, () -> object(evidence.log(), store.journal()), () -> print(evidence, store, out()));
  }

  private void print(SessionEvidence evidence, StoreReader store, PrintWriter out) {
    SessionLog log = evidence.log();
    JournalReader journal = store.journal();
    out.println(
        "#%s %s"
            .formatted(
                journal.sessionNumber(log.session().name()), JournalText.session(log.session())));
    journal
        .amendmentsOfSession(log.session().name())
        .forEach(entry -> out.println("  " + JournalText.amendment(entry)));
    for (Stage stage : log.stages()) {
      out.println();
      out.println(PlainText.inert("stage " + stage.order() + " '" + stage.name() + "'"));
      entries(log, stage).forEach(entry -> out.println("  " + line(log, entry)));
    }
    out.println();
    Advice.print(out, data, evidence, store);
  }

  private List<Entry<StageEntry>> entries(SessionLog log, Stage stage) {
    List<Entry<StageEntry>> shown = all ? log.entries().all() : log.entries().standing();
    return shown.stream()
        .filter(entry -> entry.content().stage().equalsIgnoreCase(stage.name()))
        .toList();
  }

  private static String line(SessionLog log, Entry<StageEntry> entry) {
    String gone =
        log.entries()
            .correctionOf(entry.id())
            .map(later -> " (corrected by [" + later.id() + "])")
            .orElse("");
    return JournalText.head(entry) + JournalText.entry(entry.content()) + aside(log, entry) + gone;
  }

  private static String aside(SessionLog log, Entry<StageEntry> entry) {
    return entry.content() instanceof CutPlacement placement
        ? Optional.ofNullable(log.reasonsByCut().get(placement.cut()))
            .map(why -> ", set aside: " + PlainText.inert(why).replace('\n', ' '))
            .orElse("")
        : "";
  }

  private static Map<String, Object> object(SessionLog log, JournalReader journal) {
    Map<String, Object> object = NoteJson.of(log.session());
    String name = log.session().name();
    object.put("number", journal.sessionNumber(name));
    object.put(
        "amendments", journal.amendmentsOfSession(name).stream().map(NoteJson::amendment).toList());
    object.put("stages", log.stages().stream().map(Stage::name).toList());
    Set<Long> standing =
        log.entries().standing().stream().map(Entry::id).collect(Collectors.toSet());
    List<Map<String, Object>> entries = new ArrayList<>();
    log.entries().all().forEach(e -> entries.add(NoteJson.of(e, standing.contains(e.id()))));
    object.put("entries", entries);
    object.put("set_aside", log.setAside().stream().map(SessionShowCommand::object).toList());
    return object;
  }

  private static Map<String, Object> object(SetAside act) {
    return Json.object(
        "at", act.at().toString(),
        "cut", act.cut(),
        "reason", act.reason(),
        "counts_again", act.countsAgain());
  }
}
