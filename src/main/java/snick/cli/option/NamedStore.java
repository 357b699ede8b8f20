package snick.cli.option;

import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import snick.cli.terminal.ShellWord;

/**
 * The store that a person named; a command that a message tells to type next is to act on the same.
 *
 * @param directory as it was typed; empty for the usual one
 */
public record NamedStore(Optional<Path> directory) {
  /** Commands that act on the store a person works with; the demo makes one of its own. */
  private static final List<String> COMMANDS =
      List.of(
          ("begin,touch,run,stage,step,inspect,place,compare,progress,burr,coach,trust,chart,wear,report,export,"
                  + "import,calibrate,verify,rederive,doctor,response,"
                  + "cuts list,cuts show,cuts set-aside,cuts move,cuts enter,"
                  + "blade add,blade list,blade show,blade correct,blade rename,blade merge,"
                  + "lot add,lot list,lot correct,lot compare,"
                  + "session start,session stop,session list,session show,session correct,"
                  + "session rename,session reopen,"
                  + "study repeatability,study crossed,package list,store check,store backup,"
                  + "plot cut,plot stage,plot progression,plot calibration,plot chart,plot response,plot history,"
                  + "calibrate points,calibrate line,calibrate list,calibrate show,calibrate convert,"
                  + "verify chart,verify dynamic,verify place")
              .split(","));

  /** Not the fit of a file, which is no command of the store; nor where it or help is named. */
  private static final Pattern TO_TYPE =
      Pattern.compile(
          COMMANDS.stream()
              .sorted(Comparator.comparing(String::length).reversed())
              .collect(
                  Collectors.joining(
                      "|", "\\bsnick (?>(?:", ")(?![\\w-]))(?! (?:fit|--data|--help)\\b)")));

  /** {@code message}; the commands in it that act on the store name this one. */
  public String in(String message) {
    return directory
        .map(named -> " --data " + ShellWord.of(named.toString()))
        .map(option -> TO_TYPE.matcher(message).replaceAll("$0" + Matcher.quoteReplacement(option)))
        .orElse(message);
  }
}
