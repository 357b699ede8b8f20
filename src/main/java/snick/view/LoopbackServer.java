package snick.view;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.Supplier;

/**
 * Serves metrics and health on the loopback interface. Only exact loopback host names are answered,
 * so that a page from elsewhere cannot read them through a name that it controls.
 */
public final class LoopbackServer implements AutoCloseable {
  private static final int THREADS = 4;
  private static final int BACKLOG = 16;
  private static final List<String> LOOPBACK_NAMES = List.of("localhost", "127.0.0.1", "[::1]");

  private final HttpServer server;
  private final ExecutorService threads;

  private LoopbackServer(HttpServer server, ExecutorService threads) {
    this.server = server;
    this.threads = threads;
  }

  /**
   * Starts to serve.
   *
   * @param portNumber TCP port, 0 for any free one
   * @throws IOException if the port is taken
   */
  public static LoopbackServer start(int portNumber, Supplier<BenchState> state, RigMetrics metrics)
      throws IOException {
    HttpServer server =
        HttpServer.create(
            new InetSocketAddress(InetAddress.getLoopbackAddress(), portNumber), BACKLOG);
    ExecutorService threads =
        Executors.newFixedThreadPool(
            THREADS,
            task -> {
              Thread thread = new Thread(task, "http");
              thread.setDaemon(true);
              return thread;
            });
    server.setExecutor(threads);
    server.createContext("/", exchange -> answer(exchange, state, metrics));
    server.start();
    return new LoopbackServer(server, threads);
  }

  /** The TCP port that is served. */
  public int portNumber() {
    return server.getAddress().getPort();
  }

  private static void answer(HttpExchange exchange, Supplier<BenchState> state, RigMetrics metrics)
      throws IOException {
    try (exchange) {
      if (!fromLoopbackName(exchange)) {
        send(exchange, 403, "text/plain", "only localhost, 127.0.0.1 and [::1] are answered\n");
      } else if (!exchange.getRequestMethod().equals("GET")) {
        send(exchange, 405, "text/plain", "only GET\n");
      } else {
        get(exchange, state, metrics);
      }
    }
  }

  private static void get(HttpExchange exchange, Supplier<BenchState> state, RigMetrics metrics)
      throws IOException {
    switch (exchange.getRequestURI().getPath()) {
      case "/metrics" ->
          send(exchange, 200, "text/plain; version=0.0.4; charset=utf-8", metrics.scrape());
      case "/health" -> {
        BenchState now = state.get();
        int status = now.recording() && now.storing() ? 200 : 503;
        send(exchange, status, "application/json", HealthJson.of(now));
      }
      default -> send(exchange, 404, "text/plain", "there are /health and /metrics\n");
    }
  }

  private static boolean fromLoopbackName(HttpExchange exchange) {
    List<String> hosts = exchange.getRequestHeaders().getOrDefault("Host", List.of());
    if (hosts.size() != 1) {
      return false;
    }
    String name = hosts.get(0).toLowerCase(Locale.ROOT).replaceFirst(":\\d{1,5}$", "");
    return LOOPBACK_NAMES.contains(name);
  }

  private static void send(HttpExchange exchange, int status, String type, String text)
      throws IOException {
    byte[] body = text.getBytes(StandardCharsets.UTF_8);
    exchange.getResponseHeaders().set("Content-Type", type);
    exchange.getResponseHeaders().set("X-Content-Type-Options", "nosniff");
    exchange.getResponseHeaders().set("Cache-Control", "no-store");
    exchange.sendResponseHeaders(status, body.length);
    try (OutputStream out = exchange.getResponseBody()) {
      out.write(body);
    }
  }

  @Override
  public void close() {
    server.stop(0);
    threads.shutdownNow();
  }
}
