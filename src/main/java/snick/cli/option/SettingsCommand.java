package snick.cli.option;

import java.io.PrintWriter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.terminal.JsonLine;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Table;
import snick.cli.terminal.TypedCommand;

/** Shows and keeps settings. */
@Command(
    name = "settings",
    description = {
      "Show the settings, or keep one: commands and page take it where nothing else is said.",
      "They lie in $XDG_CONFIG_HOME/snick/settings, else ~/.config/snick/settings (macOS:"
          + " ~/Library/Application Support/snick/settings; Windows: snick\\settings in your"
          + " application data), one to a line: name = value."
    },
    footerHeading = "%nExamples (invented):%n",
    footer = {
      "  snick settings",
      "  snick settings margin 6",
      "  snick settings latitude 48.1",
      "  snick settings margin --unset"
    })
public final class SettingsCommand extends TypedCommand implements Runnable {
  @Parameters(
      arity = "0..2",
      paramLabel = "NAME [VALUE]",
      description = "Which one, and its value.")
  private List<String> said = List.of();

  @Option(names = "--unset", description = "Keep no value of it.")
  private boolean unset;

  @Option(names = "--json", description = "As one JSON object.")
  private boolean json;

  @Override
  public void run() {
    Settings settings = Settings.of(spec());
    if (said.size() > 2 || (unset && said.size() != 1)) {
      throw Refusal.usage("say NAME VALUE to keep one, or NAME --unset");
    }
    if (unset || said.size() == 2) {
      settings.keep(Setting.of(said.get(0)), unset ? Optional.empty() : Optional.of(said.get(1)));
    }
    List<Setting> shown =
        said.isEmpty() ? List.of(Setting.values()) : List.of(Setting.of(said.get(0)));
    print(settings, shown, out());
  }

  private void print(Settings settings, List<Setting> shown, PrintWriter out) {
    if (json) {
      Map<String, Object> object = new LinkedHashMap<>();
      shown.forEach(s -> object.put(s.word().replace('-', '_'), settings.get(s).orElse(null)));
      JsonLine.print(out, object);
      return;
    }
    Table table = new Table("SETTING", "VALUE", "WHAT");
    shown.forEach(s -> table.row(s.word(), settings.get(s).orElse("-"), s.what()));
    table.print(out);
    out.println("kept in " + PlainText.inert(settings.file().toString()));
  }
}
