package snick.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import snick.frame.message.Answer;
import snick.frame.message.MessageType;
import snick.frame.message.SampleBatch;
import snick.frame.message.Status;
import snick.frame.message.Wire;

/** The one list of message types against the tables of firmware-protocol.md and the firmware. */
class MessageTypeTest {
  private static final Path PAGE = Path.of("firmware-protocol.md");
  private static final Path HEADER = Path.of("src/firmware/library/src/core/wire.h");
  private static final int LONGEST_BODY = Wire.MAX_DECODED_BYTES - Wire.CRC_BYTES;

  /** A type as the page writes it. */
  static String words(MessageType type) {
    return type.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  private static String code(MessageType type) {
    return String.format("%02X", type.code());
  }

  private static List<String[]> rows(String from, String to) throws IOException {
    String page = Files.readString(PAGE);
    int start = page.indexOf(from);
    assertThat(start).as(from).isNotNegative();
    return page.substring(start, page.indexOf(to, start + from.length()))
        .lines()
        .filter(line -> line.startsWith("|"))
        .map(line -> line.substring(1).strip().split("\\s*\\|\\s*"))
        .skip(2)
        .toList();
  }

  private static Stream<MessageType> types(boolean fromDevice) {
    return Stream.of(MessageType.values()).filter(type -> type.fromDevice() == fromDevice);
  }

  private static List<Integer> lengths(MessageType type) {
    return IntStream.rangeClosed(0, LONGEST_BODY).filter(type::fits).boxed().toList();
  }

  @Test
  void thePagesTableOfTypesIsThisList() throws IOException {
    assertThat(rows("### Types", "## Device to host"))
        .filteredOn(row -> row[0].strip().matches("[0-9A-F]{2}"))
        .extracting(row -> String.join(" | ", row).strip())
        .containsExactlyElementsOf(
            Stream.of(MessageType.values())
                .map(
                    type ->
                        String.join(
                            " | ", code(type), words(type), type.fromDevice() ? "device" : "host"))
                .toList());
  }

  @Test
  void thePagesTablesOfFieldsGiveTheseLengths() throws IOException {
    for (MessageType type : types(true).toList()) {
      int fixed = 0;
      for (String[] field : rows("### " + code(type) + " " + words(type), "```example")) {
        fixed += field[1].matches("\\d+") ? Integer.parseInt(field[1]) : 0;
      }
      List<Integer> expected =
          switch (type) {
            case HELLO -> IntStream.rangeClosed(fixed, LONGEST_BODY).boxed().toList();
            case SAMPLES ->
                IntStream.rangeClosed(fixed + 3, fixed + 3 * SampleBatch.MAX_SAMPLES)
                    .boxed()
                    .toList();
            default -> List.of(fixed);
          };
      assertThat(lengths(type)).as(words(type)).isEqualTo(expected);
    }
  }

  @Test
  void thePagesTableOfCommandsGivesTheirValues() throws IOException {
    Map<String, Integer> sizes = Map.of("none", 0, "u16", 2, "u32", 4);
    assertThat(rows("## Host to device", "| offset"))
        .extracting(
            row -> row[0].strip() + " " + row[1] + " " + sizes.get(row[2].replaceFirst(",.*", "")))
        .containsExactlyElementsOf(
            types(false)
                .map(type -> code(type) + " " + words(type) + " " + type.valueBytes())
                .toList());
    types(false).forEach(type -> assertThat(lengths(type)).containsExactly(2 + type.valueBytes()));
  }

  private static Map<String, Long> header(String pattern) throws IOException {
    Map<String, Long> found = new TreeMap<>();
    Pattern.compile(pattern)
        .matcher(Files.readString(HEADER))
        .results()
        .forEach(m -> found.put(m.group(1), Long.decode(m.group(2))));
    return found;
  }

  private static Map<String, Long> inEnum(String name) throws IOException {
    String header = Files.readString(HEADER);
    int start = header.indexOf("enum " + name + " {");
    String body = header.substring(start, header.indexOf('}', start));
    Map<String, Long> all = header("WIRE_(\\w+) = (\\w+)");
    all.keySet().removeIf(key -> !body.contains("WIRE_" + key + " ="));
    return all;
  }

  @Test
  void theFirmwareHasTheseTypes() throws IOException {
    Map<String, Long> types =
        Stream.of(MessageType.values())
            .collect(Collectors.toMap(MessageType::name, type -> (long) type.code()));
    types.put("FIRST_HOST_TYPE", (long) MessageType.FIRST_OF_HOST);
    assertThat(inEnum("wire_type")).isEqualTo(types);
  }

  @Test
  void theFirmwareHasTheseCodes() throws IOException {
    assertThat(inEnum("wire_result"))
        .isEqualTo(
            Stream.of(Answer.Result.values())
                .collect(Collectors.toMap(Enum::name, each -> (long) each.code())));
    assertThat(inEnum("wire_reset_cause"))
        .isEqualTo(
            Stream.of(Status.ResetCause.values())
                .collect(Collectors.toMap(each -> "RESET_" + each, each -> (long) each.code())));
    assertThat(inEnum("wire_state"))
        .isEqualTo(
            Stream.of(Status.State.values())
                .collect(Collectors.toMap(Enum::name, each -> (long) each.code())));
  }

  @Test
  void theFirmwareHasTheseLimits() throws IOException {
    assertThat(header("#define WIRE_(\\w+) (?:UINT32_C\\()?(\\d+|0x[0-9A-F]+)u?\\)?\\n"))
        .containsAllEntriesOf(
            Map.of(
                "VERSION", 1L,
                "CRC_BYTES", (long) Wire.CRC_BYTES,
                "SAMPLES_HEADER_BYTES", (long) Wire.SAMPLES_HEADER_BYTES,
                "COUNT_BYTES", (long) Wire.COUNT_BYTES,
                "HELLO_HEADER_BYTES", (long) Wire.HELLO_HEADER_BYTES,
                "MAX_FIRMWARE_BYTES", (long) Wire.MAX_FIRMWARE_BYTES,
                "MAX_SAMPLES", (long) SampleBatch.MAX_SAMPLES,
                "TEMPERATURE_NOT_MEASURED", (long) Wire.NO_TEMPERATURE & 0xFFFF,
                "SUPPLY_NOT_MEASURED", (long) Wire.NO_SUPPLY,
                "MAX_RATE_MILLI_HERTZ", Wire.MAX_RATE_MILLI_HERTZ));
  }
}
