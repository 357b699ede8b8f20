package snick.view.http;

import java.net.InetAddress;
import java.util.ArrayList;
import java.util.List;

/**
 * Who can reach the page. Immutable.
 *
 * @param address where it listens; beyond loopback even reading needs the token
 * @param names host names that are answered besides those of loopback
 */
public record PageReach(InetAddress address, List<String> names) {
  public PageReach {
    names = List.copyOf(names);
  }

  /** This machine alone. */
  public static PageReach loopback() {
    return new PageReach(InetAddress.getLoopbackAddress(), List.of());
  }

  /** Whether other machines can connect. */
  public boolean beyondLoopback() {
    return !address.isLoopbackAddress();
  }

  /** The names, and the address itself as it stands in an address line. */
  public List<String> answered() {
    List<String> answered = new ArrayList<>(names);
    if (beyondLoopback() && !address.isAnyLocalAddress()) {
      answered.add(literal());
    }
    return answered;
  }

  /** The name to open it by. */
  public String host() {
    if (!beyondLoopback()) {
      return "127.0.0.1";
    }
    return names.isEmpty() ? literal() : names.get(0);
  }

  private String literal() {
    String text = address.getHostAddress();
    return text.contains(":") ? "[" + text.replaceFirst("%.*", "") + "]" : text;
  }
}
