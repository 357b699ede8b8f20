package snick.dist;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import snick.cli.Live;

/** A program that goes on, perhaps with another view of the files than this process has. */
final class Running implements AutoCloseable {
  private final Live live;

  private Running(Live live) {
    this.live = live;
  }

  static Running start(List<String> command) throws IOException {
    ProcessBuilder builder = new ProcessBuilder(command);
    builder.environment().keySet().removeIf(name -> name.startsWith("JAVA"));
    return new Running(Live.start(builder));
  }

  /** The next line that contains {@code text}. */
  String await(String text) throws InterruptedException {
    return live.await(text);
  }

  /** Files below {@code root} that are mapped into its memory, named as they are seen there. */
  List<String> mapped(Path root) throws IOException {
    try (Stream<String> maps = Files.lines(Path.of("/proc", Long.toString(live.pid()), "maps"))) {
      return maps.filter(line -> line.contains("/"))
          .map(line -> line.substring(line.indexOf('/')))
          .map(file -> file.replaceFirst("^" + root, ""))
          .distinct()
          .toList();
    }
  }

  /** Where this machine sees a file that the program sees as {@code file}. */
  Path sees(String file) {
    return Path.of("/proc", Long.toString(live.pid()), "root", file);
  }

  /** SIGTERM; its exit status. */
  int terminate() throws InterruptedException {
    return live.terminate();
  }

  @Override
  public void close() {
    live.close();
  }
}
