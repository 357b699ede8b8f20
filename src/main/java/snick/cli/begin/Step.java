package snick.cli.begin;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.ShellWord;

/**
 * One step: a command that a person could type alone, run on the same terminal.
 *
 * @param arguments what stands behind the name of this program
 */
record Step(List<String> arguments) {
  private static final String SELF = "begin";

  Step {
    arguments = List.copyOf(arguments);
  }

  /** What to type to do it alone. */
  String typed() {
    return "snick " + arguments.stream().map(ShellWord::of).collect(Collectors.joining(" "));
  }

  /** Runs it to its end; its exit status. */
  int run() {
    List<String> command = new ArrayList<>(thisProgram());
    command.addAll(arguments);
    try {
      return new ProcessBuilder(command).inheritIO().start().waitFor();
    } catch (IOException e) {
      throw Refusal.failed("'" + typed() + "' cannot be started: " + e.getMessage(), e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw Refusal.failed("interrupted", e);
    }
  }

  /** How this program was started, as far as its own arguments. */
  private static List<String> thisProgram() {
    ProcessHandle.Info self = ProcessHandle.current().info();
    List<String> arguments = List.of(self.arguments().orElse(new String[0]));
    int own = arguments.lastIndexOf(SELF);
    List<String> program = new ArrayList<>();
    if (self.command().isPresent() && own > 0) {
      program.add(self.command().get());
      program.addAll(arguments.subList(0, own));
      return program;
    }
    program.add(System.getProperty("java.home") + "/bin/java");
    program.addAll(List.of("-cp", System.getProperty("java.class.path"), "snick.cli.Main"));
    return program;
  }
}
