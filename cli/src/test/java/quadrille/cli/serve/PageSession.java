package quadrille.cli.serve;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;

/** What a browser is to the page's server: let in by its address, then known by its cookie. */
public final class PageSession {

  private final HttpClient client = HttpClient.newHttpClient();
  private final String base;
  private final String cookie;

  /**
   * @param address as the server tells it, with its token
   */
  public PageSession(String address) throws IOException, InterruptedException {
    URI uri = URI.create(address);
    base = "http://127.0.0.1:" + uri.getPort();
    HttpResponse<String> in =
        client.send(HttpRequest.newBuilder(uri).build(), BodyHandlers.ofString());
    if (in.statusCode() != 303) {
      throw new IllegalStateException("not let in: " + in.statusCode());
    }
    cookie = in.headers().firstValue("Set-Cookie").orElseThrow().split(";")[0];
  }

  public HttpResponse<String> get(String path) throws IOException, InterruptedException {
    return client.send(request(path).build(), BodyHandlers.ofString());
  }

  /**
   * Sends what changes something.
   *
   * @param ifMatch what was read; empty where nothing is said of it
   */
  public HttpResponse<String> send(String method, String path, String body, String ifMatch)
      throws IOException, InterruptedException {
    HttpRequest.Builder request =
        request(path).header("Origin", base).method(method, BodyPublishers.ofString(body));
    if (!ifMatch.isEmpty()) {
      request.header("If-Match", ifMatch);
    }
    return client.send(request.build(), BodyHandlers.ofString());
  }

  private HttpRequest.Builder request(String path) {
    return HttpRequest.newBuilder(URI.create(base + path)).header("Cookie", cookie);
  }
}
