package snick.cli;

import java.util.List;
import picocli.CommandLine;
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
  /** Their names, in the order of the help. */
  static final List<String> NAMES =
      List.of(
          "demo",
          "run",
          "cuts",
          "blade",
          "lot",
          "session",
          "stage",
          "step",
          "inspect",
          "place",
          "compare",
          "progress",
          "burr",
          "coach",
          "trust",
          "study",
          "chart",
          "wear",
          "plot",
          "report",
          "export",
          "import",
          "package",
          "store",
          "analyze",
          "capture",
          "ports",
          "protocol",
          "calibrate",
          "verify",
          "rederive",
          "doctor",
          "response",
          "virtual-rig",
          "generate-completion");

  private TopCommand() {}

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
      case "generate-completion" -> new GenerateCompletionCommand();
      default -> throw new IllegalArgumentException(name);
    };
  }
}
