package snick.dist;

import java.io.IOException;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.util.Arrays;
import snick.cli.Main;

/**
 * Runs the program where Java says that the system is another: the first argument. What Java itself
 * loads by that name is loaded before.
 */
final class Elsewhere {
  private Elsewhere() {}

  public static void main(String[] args) throws IOException {
    try (SocketChannel host = SocketChannel.open();
        ServerSocketChannel device = ServerSocketChannel.open()) {
      host.supportedOptions();
      device.supportedOptions();
    }
    System.setProperty("os.name", args[0]);
    Main.main(Arrays.copyOfRange(args, 1, args.length));
  }
}
