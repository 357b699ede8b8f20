package snick.cli;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import picocli.CommandLine;
import picocli.CommandLine.Model.UsageMessageSpec;
import snick.cli.bench.CaptureCommand;
import snick.cli.bench.DoctorCommand;
import snick.cli.bench.PortsCommand;
import snick.cli.bench.ProtocolCommand;
import snick.cli.bench.ResponseCommand;
import snick.cli.bench.VirtualRigCommand;
import snick.cli.calibration.CalibrateCommand;
import snick.cli.cuts.AnalyzeCommand;
import snick.cli.cuts.CutsCommand;
import snick.cli.cuts.RederiveCommand;
import snick.cli.exchange.ExportCommand;
import snick.cli.exchange.ImportCommand;
import snick.cli.exchange.PackageCommand;
import snick.cli.exchange.StoreCommand;
import snick.cli.journal.BladeCommand;
import snick.cli.journal.InspectCommand;
import snick.cli.journal.PlaceCommand;
import snick.cli.journal.SessionCommand;
import snick.cli.journal.StageCommand;
import snick.cli.journal.StepCommand;
import snick.cli.lot.LotCommand;
import snick.cli.option.SettingsCommand;
import snick.cli.recorder.DemoCommand;
import snick.cli.recorder.RunCommand;
import snick.cli.report.PlotCommand;
import snick.cli.report.ReportCommand;
import snick.cli.verdict.BurrCommand;
import snick.cli.verdict.ChartCommand;
import snick.cli.verdict.CoachCommand;
import snick.cli.verdict.CompareCommand;
import snick.cli.verdict.ProgressCommand;
import snick.cli.verdict.StudyCommand;
import snick.cli.verdict.TrustCommand;
import snick.cli.verdict.WearCommand;
import snick.cli.verification.VerifyCommand;

/**
 * The commands right below {@code snick}. Only the one that is asked for is made: looking through
 * the annotations of all of them takes longer than most of them run.
 */
final class TopCommand {
  /** Their names under the headings of the help, in its order. */
  private static final Map<String, List<String>> GROUPS = groups();

  /** Their names, in the order of the help. */
  static final List<String> NAMES = GROUPS.values().stream().flatMap(List::stream).toList();

  private TopCommand() {}

  private static Map<String, List<String>> groups() {
    Map<String, List<String>> groups = new LinkedHashMap<>();
    groups.put(
        "At the bench", List.of("run", "demo", "ports", "capture", "protocol", "virtual-rig"));
    groups.put(
        "Journal", List.of("session", "stage", "step", "inspect", "place", "cuts", "blade", "lot"));
    groups.put(
        "Verdicts",
        List.of("coach", "burr", "compare", "progress", "trust", "study", "chart", "wear"));
    groups.put("Calibration", List.of("calibrate", "verify", "rederive", "response"));
    groups.put("Sharing", List.of("report", "plot", "export", "import", "package", "analyze"));
    groups.put("Care", List.of("settings", "doctor", "store", "generate-completion"));
    return groups;
  }

  /** The commands under their headings. */
  private static String listed(CommandLine.Help help) {
    StringBuilder text = new StringBuilder();
    for (Map.Entry<String, List<String>> group : GROUPS.entrySet()) {
      Map<String, CommandLine.Help> commands = new LinkedHashMap<>(help.subcommands());
      commands.keySet().retainAll(group.getValue());
      if (!commands.isEmpty()) {
        text.append(String.format("%n%s:%n", group.getKey())).append(help.commandList(commands));
      }
    }
    return text.toString();
  }

  /** The whole command line. */
  static CommandLine all() {
    return with(NAMES);
  }

  /** As much of the command line as {@code arguments} need. */
  static CommandLine neededBy(String... arguments) {
    if (arguments.length == 0) {
      return all();
    }
    if (arguments[0].equals("--version")) {
      return with(List.of());
    }
    return NAMES.contains(arguments[0]) ? with(List.of(arguments[0])) : all();
  }

  private static CommandLine with(List<String> names) {
    CommandLine line = new CommandLine(new SnickCommand());
    names.forEach(name -> line.addSubcommand(name, named(name)));
    line.getHelpSectionMap().put(UsageMessageSpec.SECTION_KEY_COMMAND_LIST_HEADING, help -> "");
    line.getHelpSectionMap().put(UsageMessageSpec.SECTION_KEY_COMMAND_LIST, TopCommand::listed);
    return line;
  }

  private static Object named(String name) {
    return switch (name) {
      case "demo" -> new DemoCommand();
      case "run" -> new RunCommand();
      case "cuts" -> new CutsCommand();
      case "blade" -> new BladeCommand();
      case "lot" -> new LotCommand();
      case "session" -> new SessionCommand();
      case "stage" -> new StageCommand();
      case "step" -> new StepCommand();
      case "inspect" -> new InspectCommand();
      case "place" -> new PlaceCommand();
      case "compare" -> new CompareCommand();
      case "progress" -> new ProgressCommand();
      case "burr" -> new BurrCommand();
      case "coach" -> new CoachCommand();
      case "trust" -> new TrustCommand();
      case "study" -> new StudyCommand();
      case "chart" -> new ChartCommand();
      case "wear" -> new WearCommand();
      case "plot" -> new PlotCommand();
      case "report" -> new ReportCommand();
      case "export" -> new ExportCommand();
      case "import" -> new ImportCommand();
      case "package" -> new PackageCommand();
      case "store" -> new StoreCommand();
      case "analyze" -> new AnalyzeCommand();
      case "capture" -> new CaptureCommand();
      case "ports" -> new PortsCommand();
      case "protocol" -> new ProtocolCommand();
      case "calibrate" -> new CalibrateCommand();
      case "verify" -> new VerifyCommand();
      case "rederive" -> new RederiveCommand();
      case "doctor" -> new DoctorCommand();
      case "response" -> new ResponseCommand();
      case "virtual-rig" -> new VirtualRigCommand();
      case "settings" -> new SettingsCommand();
      case "generate-completion" -> new GenerateCompletionCommand();
      default -> throw new IllegalArgumentException(name);
    };
  }
}
