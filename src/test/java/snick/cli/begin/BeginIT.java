package snick.cli.begin;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.Needs;
import snick.cli.Jar;
import snick.cli.Live;

/** The dialogue of a person's first ten minutes, on a pseudo-terminal. */
class BeginIT {
  /** More than a person who wants to see a first cut should be asked. */
  private static final int MOST_ANSWERS = 12;

  @TempDir private Path folder;

  @Test
  void fromNothingToAFirstCalibratedCutWithTwoAnswers() throws Exception {
    boolean there = Files.isExecutable(Path.of("/usr/bin/script"));
    Needs.tool(there, "no /usr/bin/script", "the first steps as a dialogue on a terminal");
    String data = folder.resolve("store").toString();
    try (Live begin = Jar.onThisJava().startOnTerminal("begin", "--virtual", "--data", data)) {
      begin.await("$ snick touch --virtual");
      begin.await("raises the reading");
      begin.await("$ snick doctor --virtual");
      begin.await("checks, 0 failed");
      List<String> answers = List.of("", "");
      assertThat(answers).hasSizeLessThanOrEqualTo(MOST_ANSWERS);
      for (String answer : answers) {
        begin.type(answer);
      }
      begin.await("$ snick calibrate --virtual");
      begin.await("Saved.");
      begin.await("within limits");
      assertThat(begin.await("severed")).contains("gf").contains("±");
      begin.await("Done.");
      assertThat(typedAlone(begin.await("$ snick cuts list")).out()).contains("severed");
      assertThat(begin.ended()).isZero();
      assertThat(typedAlone(begin.seen("$ snick verify")).out()).contains("within limits");
    }
  }

  /** What a step showed, typed at a prompt. */
  private static Jar.Done typedAlone(String shown) throws Exception {
    String command = shown.substring(shown.indexOf("snick ") + 6).strip();
    return Jar.onThisJava().run(command.split(" ", -1));
  }

  /** A rig that says who it is once, and is unplugged then: every step fails. */
  @Test
  void everyStepThatFailsCanBeDoneAgainOrLeft() throws Exception {
    ServerSocket door = new ServerSocket(0, 1, InetAddress.getLoopbackAddress());
    String port = "tcp://127.0.0.1:" + door.getLocalPort();
    try (Live begin =
        Jar.onThisJava().start("begin", port, "--data", folder.resolve("store").toString())) {
      for (String answer : List.of("a", "g", "g", "", "g")) {
        begin.type(answer);
      }
      try (door;
          Socket rig = door.accept()) {
        rig.getOutputStream().write("84210\n".repeat(20).getBytes(StandardCharsets.US_ASCII));
        begin.await("sends readings as text");
      }
      begin.await("$ snick touch " + port);
      begin.await("Again (a), or go on all the same (g)");
      begin.await("Again (a), or go on all the same (g)");
      begin.await("$ snick doctor " + port);
      begin.await("Without masses");
      begin.await("$ snick run " + port);
      begin.await("Done.");
      begin.await("$ snick run " + port);
      assertThat(begin.ended()).isZero();
    }
  }

  /** Ctrl-C on a terminal reaches the step and the dialogue alike. */
  @Test
  void whoStopsTheLastStepStillReadsTheLastLines() throws Exception {
    boolean there = Files.isExecutable(Path.of("/usr/bin/script"));
    Needs.tool(there, "no /usr/bin/script", "Ctrl-C in the last of the first steps");
    int number;
    Live begin;
    try (ServerSocket door = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      number = door.getLocalPort();
      String port = "tcp://127.0.0.1:" + number;
      begin =
          Jar.onThisJava().startOnTerminal("begin", port, "--data", folder.resolve("s").toString());
      try (Socket rig = door.accept()) {
        rig.getOutputStream().write("84210\n".repeat(20).getBytes(StandardCharsets.US_ASCII));
        begin.await("sends readings as text");
      }
    }
    try (begin) {
      for (String answer : List.of("g", "g", "")) {
        begin.type(answer);
      }
      begin.await("Without masses");
      try (ServerSocket door = new ServerSocket(number, 1, InetAddress.getLoopbackAddress())) {
        assertThat(door.isBound()).isTrue();
        begin.await("$ snick run");
        begin.await("stop with Ctrl-C");
        begin.type("\u0003");
        begin.await("stopped");
        begin.await("Done.");
        begin.await("$ snick cuts list");
        begin.ended();
      }
    }
  }

  @Test
  void whereThereIsNoPortItSaysSo() throws Exception {
    Jar.Done done =
        Jar.onThisJava()
            .run("begin", folder.resolve("ttyNONE").toString(), "--data", folder.toString());

    assertThat(done.exit()).isNotZero();
    assertThat(done.err()).contains("ttyNONE").doesNotContain("Exception");
  }
}
