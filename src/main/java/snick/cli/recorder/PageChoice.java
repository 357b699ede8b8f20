package snick.cli.recorder;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Option;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.view.http.PageReach;

/** Who can reach the page: this machine alone unless told. */
final class PageChoice {
  @Option(
      names = "--http-address",
      paramLabel = "ADDRESS",
      description =
          "Serve the page on this address of the machine, so that others reach it; the address that"
              + " is printed then holds a token that everyone needs. Traffic is not encrypted: an"
              + " ssh tunnel to the loopback page is safer (default: loopback).")
  private String address;

  @Option(
      names = "--http-name",
      paramLabel = "NAME",
      description = "Host name that the page answers to besides localhost; may be repeated.")
  private List<String> names = new ArrayList<>();

  /**
   * What was chosen.
   *
   * @throws Refusal if the address is none, or stands for all and no name is given
   */
  PageReach reach() {
    if (address == null) {
      return new PageReach(PageReach.loopback().address(), names);
    }
    InetAddress where = parsed();
    if (where.isAnyLocalAddress() && names.isEmpty()) {
      throw Refusal.usage(
          "--http-address %s stands for every address: name the host: --http-name NAME", address);
    }
    return new PageReach(where, names);
  }

  private InetAddress parsed() {
    try {
      return InetAddress.getByName(address);
    } catch (UnknownHostException e) {
      throw Refusal.usage("--http-address " + PlainText.inert(address) + " is no address here");
    }
  }
}
