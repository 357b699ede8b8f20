package snick.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import snick.frame.message.Answer;

/**
 * The examples of firmware-protocol.md against the firmware in the emulator, built under the name
 * and with the device id of the example: it sends the example's hello byte for byte, and answers
 * the examples' commands, sent byte for byte, with the examples' answers.
 */
@NeedsTools({Tool.GCC, Tool.MAKE, Tool.AVR_GCC, Tool.SIMAVR})
@Timeout(60)
class DocumentExamplesIT {
  private static final Make BENCH = new Make(Path.of("target", "firmware-bench").toAbsolutePath());
  private static final HexFormat HEX = HexFormat.ofDelimiter(" ");

  @TempDir private Path folder;

  @BeforeAll
  static void build() throws Exception {
    BENCH.run("all", "emulator", "NAME=bench 0.3");
  }

  private static List<Map<String, String>> examples() throws Exception {
    Pattern block = Pattern.compile("```example\n(.*?)```", Pattern.DOTALL);
    return block
        .matcher(Files.readString(Path.of("firmware-protocol.md")))
        .results()
        .map(match -> fields(match.group(1)))
        .toList();
  }

  private static Map<String, String> fields(String block) {
    Map<String, String> fields = new LinkedHashMap<>();
    block.lines().map(line -> line.split(": ", 2)).forEach(pair -> fields.put(pair[0], pair[1]));
    return fields;
  }

  private static byte[] wire(String message) throws Exception {
    return examples().stream()
        .filter(fields -> fields.get("message").equals(message))
        .map(fields -> HEX.parseHex(fields.get("wire")))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void firmwareAndExamplesAgree() throws Exception {
    try (EmulatedBoard board =
            EmulatedBoard.start(
                BENCH, folder, List.of("84213", "84220"), "--id", EmulatedBoard.ID, "--wait");
        Host host = Host.open(board.link())) {
      host.readUntil(() -> host.statuses.size() == 1 && host.counts.size() >= 3);
      assertThat(HEX.formatHex(host.raw.toByteArray()))
          .startsWith("00 " + HEX.formatHex(wire("hello")) + " ");
      for (String command : List.of("ask hello", "stop", "start", "set rate", "set gain", "ping")) {
        int before = host.answers.size();
        host.send(wire(command));
        host.readUntil(() -> host.answers.size() > before);
      }
      assertThat(host.answers.get(0).value()).isEqualTo(1);
      assertThat(host.answers.get(4))
          .extracting(Answer::command, Answer::tag, Answer::result, Answer::value)
          .containsExactly(0x85, 9, Answer.Result.ACCEPTED, 64L);
      for (Map<String, String> example : examples()) {
        if (example.get("message").equals("answer")) {
          assertThat(host.answers)
              .anySatisfy(answer -> assertThat(answer).satisfies(a -> same(a, example)));
        }
      }
    }
  }

  /** All but the clock, which the test does not command. */
  private static void same(Answer answer, Map<String, String> example) {
    assertThat(answer.command()).isEqualTo(Integer.parseInt(example.get("command"), 16));
    assertThat(answer.tag()).isEqualTo(Integer.parseInt(example.get("tag")));
    assertThat(answer.result().name()).isEqualTo(example.get("result"));
    assertThat(answer.value()).isEqualTo(Long.parseLong(example.get("value")));
  }
}
