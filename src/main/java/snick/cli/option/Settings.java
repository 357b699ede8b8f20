package snick.cli.option;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import picocli.CommandLine.IDefaultValueProvider;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import snick.cli.terminal.FileReason;
import snick.cli.terminal.Refusal;
import snick.store.database.StoreFile;

/**
 * The settings file: lines {@code name = value}; lines that begin with {@code #} are the person's
 * own. Read once, when first asked for. Options that nobody typed take their values from it.
 */
public final class Settings implements IDefaultValueProvider {
  private static final int MOST_BYTES = 100_000;

  /** Options and the setting each takes; what may not be overwritten unsaid is not among them. */
  private static final Map<String, Setting> OPTIONS =
      Map.of(
          "--latitude", Setting.LATITUDE,
          "--height", Setting.HEIGHT,
          "--http", Setting.PAGE_PORT,
          "--http-address", Setting.PAGE_ADDRESS,
          "--licence", Setting.LICENCE);

  private final Path file;
  private Map<Setting, String> values;

  /** Those in a file that need not be there. */
  public Settings(Path file) {
    this.file = file;
  }

  /** Those of the person: in the XDG configuration directory. */
  public static Settings ofPerson() {
    return new Settings(OwnFolder.CONFIGURATION.path().resolve("settings"));
  }

  /** Those that the command line of {@code command} was given. */
  public static Settings of(CommandSpec command) {
    return (Settings) command.root().defaultValueProvider();
  }

  /** Where they are kept. */
  Path file() {
    return file;
  }

  /**
   * The value of a setting; empty if it has none.
   *
   * @throws Refusal if the file cannot be read or holds what cannot be
   */
  public Optional<String> get(Setting setting) {
    if (values == null) {
      values = read();
    }
    return Optional.ofNullable(values.get(setting));
  }

  /** The margin for blades without one, gf. */
  public OptionalDouble marginGf() {
    return number(Setting.MARGIN);
  }

  /** A setting that is a number; empty if it is not set. */
  public OptionalDouble number(Setting setting) {
    return get(setting)
        .map(Double::parseDouble)
        .map(OptionalDouble::of)
        .orElseGet(OptionalDouble::empty);
  }

  /** The value that an option takes if nobody typed one. */
  @Override
  public String defaultValue(ArgSpec argument) {
    return setting(argument).flatMap(this::orNone).orElse(null);
  }

  private static Optional<Setting> setting(ArgSpec argument) {
    String command = argument.command() == null ? "" : argument.command().name();
    if (argument instanceof OptionSpec option) {
      boolean starts = command.equals("start") && option.longestName().equals("--operator");
      return starts
          ? Optional.of(Setting.OPERATOR)
          : Optional.ofNullable(OPTIONS.get(option.longestName()));
    }
    return command.equals("run") ? Optional.of(Setting.RIG) : Optional.empty();
  }

  /**
   * Nothing of a file that is wrong: help is shown all the same, and the store's opening says it.
   */
  private Optional<String> orNone(Setting setting) {
    try {
      return get(setting);
    } catch (Refusal e) {
      return Optional.empty();
    }
  }

  private Map<Setting, String> read() {
    Map<Setting, String> read = new EnumMap<>(Setting.class);
    List<String> lines = lines();
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i).strip();
      if (!line.isEmpty() && !line.startsWith("#")) {
        take(read, line, i + 1);
      }
    }
    return read;
  }

  private void take(Map<Setting, String> read, String line, int number) {
    int equals = line.indexOf('=');
    if (equals < 0) {
      throw Refusal.badInput(file + ", line " + number + ": write it as name = value");
    }
    try {
      Setting setting = Setting.of(line.substring(0, equals));
      read.put(setting, setting.checked(line.substring(equals + 1)));
    } catch (Refusal e) {
      throw Refusal.badInput(file + ", line " + number + ": " + e.getMessage());
    }
  }

  private List<String> lines() {
    if (!Files.exists(file)) {
      return List.of();
    }
    try {
      if (Files.size(file) > MOST_BYTES) {
        throw Refusal.badInput(file + " has more than " + MOST_BYTES + " bytes: shorten it");
      }
      return Files.readAllLines(file);
    } catch (IOException e) {
      throw Refusal.badInput(file + " cannot be read: " + FileReason.of(e));
    }
  }

  /** Keeps a value, or none; other lines of the file stay as they are. */
  void keep(Setting setting, Optional<String> value) {
    Optional<String> checked = value.map(setting::checked);
    List<String> kept = new ArrayList<>(lines());
    kept.removeIf(line -> line.strip().matches(setting.word() + "\\s*=.*"));
    checked.ifPresent(text -> kept.add(setting.word() + " = " + text));
    try {
      Files.createDirectories(file.getParent());
      String text =
          kept.stream().map(line -> line + System.lineSeparator()).collect(Collectors.joining());
      StoreFile.rewrite(file, text.getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw Refusal.failed(file + " cannot be written: " + FileReason.of(e), e);
    }
    values = null;
  }
}
