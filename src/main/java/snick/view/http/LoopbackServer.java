package snick.view.http;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetSocketAddress;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;

/**
 * The seam to the JDK's HTTP server: turns exchanges into {@link Request} and {@link HttpAnswer},
 * sets the headers that every answer carries.
 *
 * <p>Who sends or reads slowly keeps nobody waiting: each connection has a thread, whose time for a
 * request and for an answer is short. Only so many are answered at a time, but for what watches the
 * recorder: that never waits for its turn.
 */
public final class LoopbackServer implements AutoCloseable {
  private static final int AT_A_TIME = 8;
  private static final int DISCARDED_AT_A_TIME_BYTES = 1 << 14;
  private static final long MOST_DISCARDED_BYTES = 1 << 24;
  private static final long TURN_WAIT_SECONDS = 2;
  private static final long ANSWER_SECONDS = 5;
  private static final int BACKLOG = 1024;

  /** Of connections, and so of threads; their stacks are small. */
  private static final int MOST_CONNECTIONS = 1024;

  private static final long STACK_BYTES = 512 << 10;

  /** What programs ask that watch the recorder. */
  private static final Set<String> WATCHING = Set.of("/health", "/metrics");

  private static final Map<String, String> EVERY_ANSWER =
      Map.of(
          "X-Content-Type-Options", "nosniff",
          "Content-Security-Policy",
              "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self';"
                  + " connect-src 'self'; base-uri 'none'; form-action 'none';"
                  + " frame-ancestors 'none'",
          "Referrer-Policy", "no-referrer",
          "Cross-Origin-Opener-Policy", "same-origin",
          "Cross-Origin-Resource-Policy", "same-origin");

  static {
    // Read once, when the JDK's server class is loaded. Without nodelay a kept connection waits
    // about 40 ms an answer (Nagle's algorithm against delayed acknowledgement).
    System.setProperty("sun.net.httpserver.nodelay", "true");
    System.setProperty("sun.net.httpserver.maxReqTime", "2");
    System.setProperty("sun.net.httpserver.idleTimerScheduleMillis", "500");
    System.setProperty("jdk.httpserver.maxConnections", Integer.toString(MOST_CONNECTIONS));
  }

  private final HttpServer server;
  private final ExecutorService answering;
  private final ScheduledExecutorService deadlines;
  private final Semaphore turns = new Semaphore(AT_A_TIME, true);

  private LoopbackServer(HttpServer server) {
    this.server = server;
    this.answering = Executors.newCachedThreadPool(task -> daemonThread("http", task));
    this.deadlines =
        Executors.newSingleThreadScheduledExecutor(task -> daemonThread("http-deadline", task));
  }

  /**
   * Starts to serve.
   *
   * @param address where to listen; port 0 for any free one
   * @throws IOException if the port is taken
   */
  public static LoopbackServer start(InetSocketAddress address, Site site) throws IOException {
    HttpServer server = HttpServer.create(address, BACKLOG);
    LoopbackServer serving = new LoopbackServer(server);
    server.setExecutor(serving.answering);
    server.createContext("/", exchange -> serving.take(exchange, site));
    server.start();
    return serving;
  }

  private static Thread daemonThread(String name, Runnable task) {
    Thread thread = new Thread(null, task, name, STACK_BYTES);
    thread.setDaemon(true);
    return thread;
  }

  /** The TCP port that is served. */
  public int portNumber() {
    return server.getAddress().getPort();
  }

  private void take(HttpExchange exchange, Site site) throws IOException {
    try {
      HttpAnswer answer = answer(exchange, site);
      if (answer instanceof HttpAnswer.Stream stream) {
        stream(exchange, stream.viewer());
      } else if (answer instanceof HttpAnswer.Whole whole) {
        sendInTime(exchange, whole);
      } else if (answer instanceof HttpAnswer.Problem problem) {
        sendInTime(exchange, problem.in(site.words()));
      }
    } catch (IOException | RuntimeException e) {
      exchange.close();
      throw e;
    }
  }

  private HttpAnswer answer(HttpExchange exchange, Site site) throws IOException {
    Request head = head(exchange);
    Optional<HttpAnswer.Problem> refusal = site.refuse(head);
    if (refusal.isPresent()) {
      return refusal.get();
    }
    byte[] body = exchange.getRequestBody().readNBytes(head.bodyLimitBytes() + 1);
    if (body.length > head.bodyLimitBytes()) {
      discard(exchange.getRequestBody());
      return HttpAnswer.problem(413, "door.body_too_long", "bytes", head.bodyLimitBytes());
    }
    Request whole = head.with(body);
    return WATCHING.contains(head.path()) ? site.answer(whole) : inTurn(whole, site);
  }

  /** Reads on for a while: who is cut off while sending may never read why. */
  private static void discard(InputStream rest) throws IOException {
    byte[] some = new byte[DISCARDED_AT_A_TIME_BYTES];
    long left = MOST_DISCARDED_BYTES;
    for (int read = 0; read >= 0 && left > 0; left -= read) {
      read = rest.read(some);
    }
  }

  private HttpAnswer inTurn(Request request, Site site) {
    if (!turn()) {
      return HttpAnswer.problem(503, "door.too_much");
    }
    try {
      return site.answer(request);
    } finally {
      turns.release();
    }
  }

  private boolean turn() {
    try {
      return turns.tryAcquire(TURN_WAIT_SECONDS, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }

  private static Request head(HttpExchange exchange) {
    Map<String, List<String>> headers = new HashMap<>();
    exchange
        .getRequestHeaders()
        .forEach((name, values) -> headers.put(name.toLowerCase(Locale.ROOT), values));
    return new Request(
        exchange.getRequestMethod(),
        Objects.requireNonNullElse(exchange.getRequestURI().getPath(), ""),
        query(exchange.getRequestURI().getRawQuery()),
        headers,
        new byte[0],
        List.of());
  }

  private static Map<String, String> query(String raw) {
    Map<String, String> query = new HashMap<>();
    for (String pair : raw == null ? new String[0] : raw.split("&", 64)) {
      int equals = pair.indexOf('=');
      if (equals > 0) {
        query.putIfAbsent(decoded(pair.substring(0, equals)), decoded(pair.substring(equals + 1)));
      }
    }
    return query;
  }

  /** Decoded; as it stands if it is not well formed. */
  private static String decoded(String text) {
    try {
      return URLDecoder.decode(text, StandardCharsets.UTF_8);
    } catch (IllegalArgumentException e) {
      return text;
    }
  }

  /** Whoever does not read the answer in time loses the connection. */
  private void sendInTime(HttpExchange exchange, HttpAnswer.Whole answer) throws IOException {
    Future<?> deadline = deadlines.schedule(exchange::close, ANSWER_SECONDS, TimeUnit.SECONDS);
    try {
      send(exchange, answer);
      exchange.close();
    } finally {
      deadline.cancel(false);
    }
  }

  private static void send(HttpExchange exchange, HttpAnswer.Whole answer) throws IOException {
    EVERY_ANSWER.forEach(exchange.getResponseHeaders()::set);
    answer.headers().forEach(exchange.getResponseHeaders()::set);
    boolean headOnly = exchange.getRequestMethod().equals("HEAD");
    boolean empty = headOnly || answer.body().length == 0;
    exchange.sendResponseHeaders(answer.status(), empty ? -1 : answer.body().length);
    if (!empty) {
      try (OutputStream out = exchange.getResponseBody()) {
        out.write(answer.body());
      }
    }
  }

  /**
   * A reader that goes away shows only as a failing write: that is how a stream ends. The server
   * has to be told of it: it counts a connection that is merely closed among the open ones for
   * ever, and takes no more when they are too many.
   */
  private static void stream(HttpExchange exchange, Viewer viewer) throws IOException {
    try {
      EVERY_ANSWER.forEach(exchange.getResponseHeaders()::set);
      exchange.getResponseHeaders().set("Content-Type", "text/event-stream");
      exchange.getResponseHeaders().set("Cache-Control", "no-store");
      exchange.sendResponseHeaders(200, 0);
      viewer.write(exchange.getResponseBody());
      exchange.getResponseBody().close();
    } finally {
      viewer.dismiss();
    }
  }

  @Override
  public void close() {
    server.stop(0);
    answering.shutdownNow();
    deadlines.shutdownNow();
  }
}
