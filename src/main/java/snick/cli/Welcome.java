package snick.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import snick.cli.terminal.PlainText;
import snick.journal.Session;
import snick.store.StoreReader;
import snick.store.database.StoreException;

/**
 * What is there, and what is likely to be typed next: the answer to {@code snick} alone.
 *
 * @param rig the rig that is meant if none is typed
 * @param store directory of the store
 * @param runtime where running recorders leave the tokens of their pages
 */
record Welcome(Optional<String> rig, Path store, Path runtime) {
  private static final Pattern TOKEN = Pattern.compile("page-(\\d{1,5})\\.token");
  private static final int COLUMN = 40;
  private static final int PATIENCE_MILLIS = 200;

  void print(PrintWriter out) {
    Optional<Session> last = lastSession();
    List<String> pages = pages();
    out.println("Rig:          " + rig.map(PlainText::inert).orElse("none set; see: snick ports"));
    out.println("Last session: " + last.map(Welcome::told).orElse("none yet"));
    out.println(
        "Page:         " + (pages.isEmpty() ? "no recorder runs" : String.join(", ", pages)));
    out.println();
    out.println("Next:");
    next(last, pages).forEach(line -> out.println("  " + line));
    out.println();
    out.println("All commands: snick --help");
  }

  private static String told(Session session) {
    return PlainText.inert(session.name()) + (session.closed().isPresent() ? "" : ", still open");
  }

  private Optional<Session> lastSession() {
    if (!Files.isDirectory(store)) {
      return Optional.empty();
    }
    try (StoreReader reader = StoreReader.open(store)) {
      return reader.journal().latestSessions(1).stream().findFirst();
    } catch (StoreException e) {
      return Optional.empty();
    }
  }

  /** Addresses of pages on this machine. */
  private List<String> pages() {
    if (!Files.isDirectory(runtime)) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(runtime)) {
      return files
          .map(file -> TOKEN.matcher(file.getFileName().toString()))
          .filter(Matcher::matches)
          .filter(token -> answers(Integer.parseInt(token.group(1))))
          .map(token -> "http://127.0.0.1:" + token.group(1) + "/")
          .sorted()
          .toList();
    } catch (IOException e) {
      return List.of();
    }
  }

  /** A recorder that was killed leaves its token behind, but nobody answers there. */
  private static boolean answers(int port) {
    try (Socket socket = new Socket()) {
      socket.connect(
          new InetSocketAddress(InetAddress.getLoopbackAddress(), port), PATIENCE_MILLIS);
      return true;
    } catch (IOException | IllegalArgumentException nobody) {
      return false;
    }
  }

  private List<String> next(Optional<Session> last, List<String> pages) {
    List<String> lines = new ArrayList<>();
    if (last.isEmpty() && pages.isEmpty()) {
      lines.add(line("snick demo", "see the main job, no hardware needed"));
      lines.add(line("snick begin", "from a board that is plugged in to a first cut"));
    }
    if (pages.isEmpty()) {
      String port = rig.map(PlainText::inert).orElse("PORT");
      lines.add(line("snick run " + port, "record; opens the page"));
    }
    last.ifPresent(
        session -> {
          boolean open = session.closed().isEmpty();
          lines.add(
              open
                  ? line("snick coach", "what to do next in the open session")
                  : line("snick session start --blade LABEL", "begin another session"));
          lines.add(line("snick report", "the report of the last session"));
        });
    if (last.isEmpty() && !pages.isEmpty()) {
      lines.add(line("snick session start --blade LABEL", "begin a session, or do it on the page"));
      lines.add(line("snick doctor", "what the rig does well and what not"));
    }
    if (lines.size() < 3) {
      lines.add(line("snick cuts list", "the newest cuts"));
    }
    return lines;
  }

  private static String line(String command, String what) {
    return command + " ".repeat(Math.max(2, COLUMN - command.length())) + what;
  }
}
