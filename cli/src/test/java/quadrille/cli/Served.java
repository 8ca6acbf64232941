package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;

/** A page that is being served, asked as a browser would that was let in. */
final class Served implements AutoCloseable {

  private final HttpClient client = HttpClient.newHttpClient();
  private final AutoCloseable server;
  private final String base;
  private final String cookie;

  Served(URI address, AutoCloseable server) {
    this.server = server;
    this.base = "http://127.0.0.1:" + address.getPort();
    HttpResponse<String> in = sent(HttpRequest.newBuilder(address));
    assertEquals(303, in.statusCode());
    this.cookie = in.headers().firstValue("Set-Cookie").orElseThrow().split(";")[0];
  }

  /** Status and body. */
  String get(String path) {
    return said(HttpRequest.newBuilder(URI.create(base + path)));
  }

  String post(String path, String body) {
    return said(
        HttpRequest.newBuilder(URI.create(base + path))
            .header("Origin", base)
            .POST(BodyPublishers.ofString(body)));
  }

  private String said(HttpRequest.Builder request) {
    HttpResponse<String> answer = sent(request.header("Cookie", cookie));
    return "status " + answer.statusCode() + "\n" + answer.body();
  }

  private HttpResponse<String> sent(HttpRequest.Builder request) {
    try {
      return client.send(request.build(), BodyHandlers.ofString());
    } catch (IOException | InterruptedException e) {
      throw new AssertionError(e);
    }
  }

  @Override
  public void close() {
    try {
      server.close();
    } catch (Exception e) {
      throw new AssertionError(e);
    }
  }
}
