package snick.cli.bench;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Table;
import snick.cli.terminal.TypedCommand;
import snick.daemon.link.HostTime;
import snick.daemon.link.Introduction;
import snick.json.Json;
import snick.port.PortAddress;
import snick.port.Ports;

/** Lists serial devices and says which one speaks the protocol. */
@Command(
    name = "ports",
    description = "List serial devices, and say which one speaks the protocol.",
    footer = {
      "  snick ports",
      "  snick ports --no-ask     only list: opening a port restarts many boards",
      "  snick ports --json"
    })
public final class PortsCommand extends TypedCommand implements Runnable {
  @Option(names = "--no-ask", description = "Do not open the ports to ask who is there.")
  private boolean noAsk;

  @Option(
      names = "--baud",
      paramLabel = "N",
      defaultValue = "115200",
      description = "Bits per second (default: ${DEFAULT-VALUE}).")
  private int bitsPerSecond;

  @Option(
      names = "--also",
      paramLabel = "PORT",
      description = "Ask this port too; may be repeated.")
  private List<String> further = new ArrayList<>();

  @Option(names = "--json", description = "One JSON object a line for each port.")
  private boolean json;

  /** One port and what was found out about it. */
  private record Row(String port, String description, String answer) {}

  @Override
  public void run() {
    Ports ports = new Ports(bitsPerSecond);
    List<Row> rows = new ArrayList<>();
    for (Ports.Candidate candidate : candidates(ports)) {
      rows.add(
          new Row(
              candidate.path().toString(),
              candidate.description(),
              ask(ports, new PortAddress.SerialDevice(candidate.path()))));
    }
    for (String port : further) {
      rows.add(new Row(port, "", ask(ports, PortAddress.parse(port))));
    }
    print(rows);
  }

  private static List<Ports.Candidate> candidates(Ports ports) {
    try {
      return ports.candidates();
    } catch (IOException e) {
      throw Refusal.failed("the serial devices cannot be listed: " + e.getMessage(), e);
    }
  }

  private String ask(Ports ports, PortAddress address) {
    if (noAsk) {
      return "not asked";
    }
    try {
      return Introduction.of(ports, address, HostTime.REAL).words();
    } catch (IOException e) {
      return e.getMessage();
    }
  }

  private void print(List<Row> rows) {
    Table table = new Table("PORT", "NAME", "WHO IS THERE");
    rows.forEach(row -> table.row(row.port(), row.description(), row.answer()));
    tellEach(
        json,
        rows,
        PortsCommand::object,
        "No serial port is here. Plug a rig in, or try without: snick demo",
        () -> table.print(out()));
  }

  private static Map<String, Object> object(Row row) {
    return Json.object(
        "port", row.port(),
        "description", row.description(),
        "answer", row.answer());
  }
}
