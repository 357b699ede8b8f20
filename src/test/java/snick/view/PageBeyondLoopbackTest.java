package snick.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.CookieManager;
import java.net.InetAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snick.view.http.PageReach;

/** Served for other machines, on every address: then only with the token. */
class PageBeyondLoopbackTest {
  @TempDir Path folder;
  private TestBench bench;

  @BeforeEach
  void start() throws IOException {
    InetAddress every = InetAddress.getByAddress(new byte[4]);
    bench = new TestBench(folder, new PageReach(every, List.of("localhost")));
  }

  @AfterEach
  void stop() {
    bench.close();
  }

  @Test
  void withoutTheTokenNothingIsRead() throws Exception {
    for (String path :
        List.of("/", "/api/v1/bench", "/api/v1/events", "/page/bench.js", "/health")) {
      assertThat(bench.get(path).statusCode()).as(path).isEqualTo(403);
    }
    assertThat(bench.get("/?token=" + "0".repeat(64)).statusCode()).isEqualTo(403);
    assertThat(bench.get("/api/v1/bench?token=" + bench.token()).statusCode()).isEqualTo(403);
  }

  @Test
  void thePrintedAddressLetsInAndHidesTheToken() throws Exception {
    assertThat(bench.page.address()).startsWith("http://localhost:").endsWith(bench.token());
    HttpClient browser =
        HttpClient.newBuilder()
            .cookieHandler(new CookieManager())
            .followRedirects(HttpClient.Redirect.NORMAL)
            .build();
    HttpResponse<String> page = get(browser, bench.page.address());
    assertThat(page.statusCode()).isEqualTo(200);
    assertThat(page.uri().getQuery()).isNull();
    assertThat(page.previousResponse().orElseThrow().headers().firstValue("Set-Cookie"))
        .hasValueSatisfying(
            cookie -> assertThat(cookie).contains("HttpOnly").contains("SameSite=Strict"));
    String bare = page.uri().resolve("/api/v1/bench").toString();
    assertThat(get(browser, bare).statusCode()).isEqualTo(200);
  }

  @Test
  void thePrintedAddressNamesTheHost() throws IOException {
    InetAddress one = InetAddress.getByAddress(new byte[] {10, 0, 0, 7});
    assertThat(new PageReach(one, List.of()).host()).isEqualTo("10.0.0.7");
    assertThat(new PageReach(one, List.of()).answered()).containsExactly("10.0.0.7");
    assertThat(new PageReach(InetAddress.getByName("fe80::1"), List.of()).answered())
        .containsExactly("[fe80:0:0:0:0:0:0:1]");
    assertThat(PageReach.loopback().answered()).isEmpty();
  }

  private static HttpResponse<String> get(HttpClient client, String address) throws Exception {
    return client.send(
        HttpRequest.newBuilder(URI.create(address)).build(), HttpResponse.BodyHandlers.ofString());
  }
}
