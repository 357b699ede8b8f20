package snick.frame;

import java.util.List;
import snick.frame.message.Answer;
import snick.frame.message.CommandSink;
import snick.frame.message.HostCommand;

/** Writes down what a device is asked; a refusal fails. */
public final class ReceivedCommands {
  private ReceivedCommands() {}

  public static CommandSink into(List<HostCommand> commands) {
    return new CommandSink() {
      @Override
      public void command(HostCommand command) {
        commands.add(command);
      }

      @Override
      public void refused(int type, int tag, Answer.Result reason) {
        throw new AssertionError("type " + type + ", tag " + tag + " refused: " + reason);
      }
    };
  }
}
