package snick.cli.bench;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Table;
import snick.cli.terminal.TypedCommand;
import snick.conformance.Assessment;
import snick.conformance.Assessment.Grade;
import snick.conformance.Line;
import snick.conformance.Trial;
import snick.json.Json;
import snick.port.ByteLink;
import snick.port.PortAddress;
import snick.port.Ports;

/** Tries a rig's firmware against firmware-protocol.md. */
@Command(
    name = "check",
    description =
        "Try a rig's firmware against firmware-protocol.md, condition by condition: 10 s.",
    footer = {
      "  snick protocol check /dev/ttyACM0",
      "  snick protocol check /dev/ttyUSB0 --baud 500000 --json",
      "",
      "Nothing may be recording from the rig meanwhile. Take the blade out: nothing is cut."
    })
final class ProtocolCheckCommand extends TypedCommand implements Callable<Integer> {
  @Parameters(
      paramLabel = "PORT",
      description = "Serial device, part of a port's name, or tcp://HOST:PORT.")
  private String port;

  @Option(
      names = "--baud",
      paramLabel = "N",
      defaultValue = "115200",
      description = "Bits per second of a serial port (default: ${DEFAULT-VALUE}).")
  private int bitsPerSecond;

  @Option(names = "--json", description = "One JSON object a line for each condition.")
  private boolean json;

  /** A port as a line; what goes wrong with it ends the trial. */
  private record PortLine(ByteLink link) implements Line {
    @Override
    public void send(byte[] bytes) {
      try {
        link.write(bytes);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    @Override
    public int receive(byte[] buffer) {
      try {
        return link.read(buffer);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    @Override
    public long nanos() {
      return System.nanoTime();
    }
  }

  @Override
  public Integer call() {
    List<Assessment> assessments = tryRig(address());
    tellEach(json, assessments, ProtocolCheckCommand::object, "", () -> print(out(), assessments));
    return assessments.stream().anyMatch(a -> a.grade() == Grade.FAILED)
        ? ExitCode.NOT_PASSED
        : ExitCode.OK;
  }

  private PortAddress address() {
    try {
      PortAddress address = PortAddress.parse(port);
      if (address.live()) {
        return address;
      }
    } catch (IllegalArgumentException e) {
      throw Refusal.usage(e.getMessage());
    }
    throw Refusal.usage(port + " is a recording; only a live rig can be asked");
  }

  private List<Assessment> tryRig(PortAddress address) {
    try (ByteLink link = new Ports(bitsPerSecond).openLink(address)) {
      return Trial.of(new PortLine(link));
    } catch (IOException e) {
      throw Refusal.unavailable(e.getMessage());
    } catch (UncheckedIOException e) {
      throw Refusal.unavailable(e.getCause().getMessage() + " during the trial");
    }
  }

  private static void print(PrintWriter out, List<Assessment> assessments) {
    Table table = new Table("", "CONDITION", "A DEVICE THAT MEETS IT", "FOUND");
    for (Assessment each : assessments) {
      table.row(word(each.grade()), each.condition().id(), each.condition().words(), each.detail());
    }
    table.print(out);
    out.println(
        String.format(
            Locale.ROOT,
            "%d passed, %d failed, %d not tried",
            count(assessments, Grade.PASSED),
            count(assessments, Grade.FAILED),
            count(assessments, Grade.NOT_TRIED)));
  }

  private static long count(List<Assessment> assessments, Grade grade) {
    return assessments.stream().filter(a -> a.grade() == grade).count();
  }

  private static String word(Grade grade) {
    return switch (grade) {
      case PASSED -> "passed";
      case FAILED -> "FAILED";
      case NOT_TRIED -> "not tried";
    };
  }

  private static Map<String, Object> object(Assessment assessment) {
    return Json.object(
        "condition", assessment.condition().id(),
        "outcome", assessment.grade().word(),
        "requirement", assessment.condition().words(),
        "detail", assessment.detail());
  }
}
