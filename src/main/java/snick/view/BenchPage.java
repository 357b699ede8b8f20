package snick.view;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import snick.phrase.Phrase;
import snick.view.bench.Bench;
import snick.view.http.Doorkeeper;
import snick.view.http.EventHub;
import snick.view.http.HttpAnswer;
import snick.view.http.LoopbackServer;
import snick.view.http.PageReach;
import snick.view.http.PageToken;
import snick.view.http.Request;
import snick.view.http.Route;
import snick.view.http.ServerSentEvent;
import snick.view.http.Site;

/**
 * The live page with its event stream, its JSON for programs, metrics and health. Safe for any
 * thread; nothing here makes recording wait.
 */
public final class BenchPage implements AutoCloseable {
  private static final long JOURNAL_LOOK_SECONDS = 2;
  private static final long WORK_LOOK_MILLIS = 100;
  private static final long STOP_WAIT_SECONDS = 5;

  private final ScheduledExecutorService boardThread = thread("page");
  private final ScheduledExecutorService archiveThread = thread("page-archive");
  private final ScheduledExecutorService exportThread = thread("page-export");
  private final ScheduledExecutorService tickerThread = thread("page-ticker");
  private final Settings settings;
  private final Bench bench;
  private final PageToken token = PageToken.random();
  private final EventHub hub;
  private final RigNotes notes;
  private final Board board;
  private final RigWorks works;
  private final Ticker ticker;
  private final Routes routes;
  private final LoopbackServer server;

  /**
   * Where the page is served.
   *
   * @param reach who can reach it
   * @param portNumber TCP port, 0 for any free one
   * @param tokenFolder where programs of the same user find the token that a change must carry, in
   *     a file named by the port
   */
  public record Settings(PageReach reach, int portNumber, Path tokenFolder) {}

  private BenchPage(Settings settings, Bench bench) throws IOException {
    this.settings = settings;
    this.bench = bench;
    hub = new EventHub(bench.clock().instant(), this::greeting);
    notes = new RigNotes(bench);
    board = new Board(bench, hub, boardThread);
    works = new RigWorks(bench);
    ticker = new Ticker(bench, hub, notes, works);
    PageFiles files = new PageFiles(token, bench.preferences().words());
    routes =
        new Routes(
            bench,
            board,
            new Routes.Acts(
                new JournalActs(bench, board, works),
                new MendingActs(bench, board),
                new Archive(bench, archiveThread, exportThread),
                works),
            request -> HttpAnswer.of(200, "application/json", ticker.state()),
            this::events,
            files.description());
    server =
        LoopbackServer.start(
            new InetSocketAddress(settings.reach().address(), settings.portNumber()), site(files));
  }

  /**
   * Starts to serve.
   *
   * @throws IOException if the port is taken or the token cannot be written
   */
  public static BenchPage start(Settings settings, Bench bench) throws IOException {
    BenchPage page = new BenchPage(settings, bench);
    try {
      page.token.writeTo(page.tokenFile());
    } catch (IOException e) {
      page.close();
      throw e;
    }
    page.begin();
    return page;
  }

  @SuppressWarnings("FutureReturnValueIgnored") // steadily() takes every failure of a beat
  private void begin() {
    boardThread.scheduleWithFixedDelay(
        steadily(this::look), 0, JOURNAL_LOOK_SECONDS, TimeUnit.SECONDS);
    boardThread.scheduleWithFixedDelay(
        steadily(works::follow), 0, WORK_LOOK_MILLIS, TimeUnit.MILLISECONDS);
    tickerThread.scheduleAtFixedRate(
        steadily(ticker::tick), 0, Ticker.PERIOD_MILLIS, TimeUnit.MILLISECONDS);
  }

  private Path tokenFile() {
    return settings.tokenFolder().resolve("page-" + portNumber() + ".token");
  }

  private void look() {
    board.refresh();
    notes.readChecks(bench.reader());
  }

  /** Runs {@code beat} so that one failure does not end all further beats. */
  private Runnable steadily(Runnable beat) {
    return () -> {
      try {
        beat.run();
      } catch (RuntimeException e) {
        bench
            .complain()
            .accept(Phrase.of("fault.page_not_up_to_date", "what", String.valueOf(e.getMessage())));
      }
    };
  }

  private Site site(PageFiles files) {
    return new BenchSite(
        new Doorkeeper(settings.reach().answered(), token, settings.reach().beyondLoopback()),
        files,
        routes,
        token,
        settings.reach().beyondLoopback(),
        bench.preferences().words());
  }

  private HttpAnswer events(Request request) {
    if (!request.method().equals("GET")) {
      return HttpAnswer.problem(405, "door.use", "methods", "GET");
    }
    return hub.admit(request.one("Last-Event-ID"))
        .<HttpAnswer>map(HttpAnswer.Stream::new)
        .orElseGet(
            () ->
                HttpAnswer.problem(503, "door.too_many_watch", "n", EventHub.MOST_VIEWERS)
                    .in(bench.preferences().words())
                    .with("Retry-After", "10"));
  }

  private List<ServerSentEvent> greeting() {
    List<ServerSentEvent> events = new ArrayList<>();
    events.add(new ServerSentEvent(ServerSentEvent.Kind.STATE, ticker.state()));
    events.add(new ServerSentEvent(ServerSentEvent.Kind.BENCH, board.document()));
    events.addAll(ticker.traces());
    return events;
  }

  /** A cut of {@code rig} was committed. Returns at once. */
  public void announced(int rig, int polarity, long cutId) {
    notes.polarity(rig, polarity);
    board.announced(cutId);
  }

  /** Everything that is served for programs. */
  List<Route> routes() {
    return routes.all();
  }

  /** The TCP port that is served. */
  public int portNumber() {
    return server.portNumber();
  }

  /** The address to open; beyond loopback it holds the token. */
  public String address() {
    String secret = settings.reach().beyondLoopback() ? "?token=" + token.text() : "";
    return "http://" + settings.reach().host() + ":" + portNumber() + "/" + secret;
  }

  private static void end(ScheduledExecutorService thread) throws InterruptedException {
    thread.shutdown();
    if (!thread.awaitTermination(STOP_WAIT_SECONDS, TimeUnit.SECONDS)) {
      thread.shutdownNow();
    }
  }

  private static ScheduledExecutorService thread(String name) {
    return Executors.newSingleThreadScheduledExecutor(
        task -> {
          Thread thread = new Thread(task, name);
          thread.setDaemon(true);
          return thread;
        });
  }

  @Override
  public void close() {
    hub.close();
    server.close();
    tickerThread.shutdownNow();
    try {
      end(boardThread);
      end(archiveThread);
      end(exportThread);
      Files.deleteIfExists(tokenFile());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
