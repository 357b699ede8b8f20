package snick.faults;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What the page is told of cuts, as a browser hears it. */
final class PageEvents implements AutoCloseable {
  private static final HttpClient CLIENT = HttpClient.newHttpClient();
  private static final Pattern PAGE = Pattern.compile("http://127\\.0\\.0\\.1:\\d+");
  private static final long END_SECONDS = 10;

  private final Set<Long> cuts = new TreeSet<>();
  private CompletableFuture<Void> watching = CompletableFuture.completedFuture(null);
  private boolean cutFollows;

  /** Address of the page that a line of {@code run} names. */
  static String address(String line) {
    Matcher page = PAGE.matcher(line);
    if (!page.find()) {
      throw new AssertionError("no page in " + line);
    }
    return page.group();
  }

  /** What a page answers. */
  static String get(String address) throws IOException, InterruptedException {
    return CLIENT
        .send(
            HttpRequest.newBuilder(URI.create(address)).build(),
            HttpResponse.BodyHandlers.ofString())
        .body();
  }

  /** Listens from now on. */
  void watch(String lineWithAddress) {
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(address(lineWithAddress) + "/api/v1/events")).build();
    watching =
        CLIENT
            .sendAsync(request, HttpResponse.BodyHandlers.ofLines())
            .thenAccept(answer -> answer.body().forEach(this::take));
  }

  private synchronized void take(String line) {
    if (line.startsWith("event:")) {
      cutFollows = line.endsWith(" cut");
    } else if (cutFollows && line.startsWith("data:")) {
      try {
        Object id = JSON.std.mapFrom(line.substring("data:".length())).get("id");
        cuts.add(((Number) id).longValue());
      } catch (IOException tornByTheKill) {
        return;
      }
    }
  }

  /** Ids of all cuts heard of; waits for the stream's end, which the kill has brought. */
  Set<Long> cuts() throws InterruptedException {
    try {
      watching.exceptionally(brokenByTheKill -> null).get(END_SECONDS, TimeUnit.SECONDS);
    } catch (java.util.concurrent.ExecutionException | TimeoutException e) {
      throw new AssertionError("the page's stream did not end", e);
    }
    synchronized (this) {
      return Set.copyOf(cuts);
    }
  }

  @Override
  public void close() {
    watching.cancel(true);
  }
}
