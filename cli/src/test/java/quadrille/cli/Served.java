package quadrille.cli;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpResponse;
import quadrille.cli.serve.PageSession;

/** A page that is being served, asked as a browser would that was let in. */
final class Served implements AutoCloseable {

  private final AutoCloseable server;
  private final PageSession session;

  Served(URI address, AutoCloseable server) {
    this.server = server;
    try {
      session = new PageSession(address.toString());
    } catch (IOException | InterruptedException e) {
      throw new AssertionError(e);
    }
  }

  /** Status and body. */
  String get(String path) {
    return said(() -> session.get(path));
  }

  String post(String path, String body) {
    return said(() -> session.send("POST", path, body, ""));
  }

  private interface Sent {
    HttpResponse<String> answer() throws IOException, InterruptedException;
  }

  private static String said(Sent sent) {
    try {
      HttpResponse<String> answer = sent.answer();
      return "status " + answer.statusCode() + "\n" + answer.body();
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
