package snick.cli;

import java.util.Arrays;
import java.util.List;
import picocli.CommandLine.Model.CommandSpec;

/** Descriptions of the command line's model, as plain words: picocli's are formats. */
final class Described {
  private Described() {}

  /** First sentence of a command's description, without its full stop. */
  static String of(CommandSpec spec) {
    String description = joined(spec.usageMessage().description());
    int end = description.indexOf(". ");
    String sentence = end < 0 ? description : description.substring(0, end);
    return sentence.endsWith(".") ? sentence.substring(0, sentence.length() - 1) : sentence;
  }

  /** A command's description, line by line. */
  static List<String> lines(CommandSpec spec) {
    return Arrays.stream(spec.usageMessage().description()).map(Described::plain).toList();
  }

  /** A description in one line. */
  static String joined(String[] description) {
    return plain(String.join(" ", description));
  }

  private static String plain(String format) {
    return format.replace("%n", " ").replace("%%", "%");
  }
}
