package snick.cli.terminal;

import java.io.File;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * What a person types for the word {@code snick} that every message and example begins with: that
 * word itself if it was started by the installed launcher, else Java and the jar.
 */
public final class OwnName {
  /** The launcher sets it. */
  private static final String LAUNCHED = "snick.command";

  private static final Pattern MENTION = Pattern.compile("\\bsnick [a-z]");

  private OwnName() {}

  /** What stands behind the word, as one line; empty if it can be typed as it is. */
  public static Optional<String> explained() {
    if (System.getProperty(LAUNCHED) != null) {
      return Optional.empty();
    }
    String path = System.getProperty("java.class.path");
    boolean jarAlone = path.endsWith(".jar") && !path.contains(File.pathSeparator);
    String jar = jarAlone ? path : "target/snick.jar";
    return Optional.of("'snick' here means: java -jar " + jar);
  }

  /** The line, if {@code message} tells the person to type something. */
  public static Optional<String> explained(String message) {
    return MENTION.matcher(message).find() ? explained() : Optional.empty();
  }
}
