package quadrille.cli.serve;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.time.Clock;
import java.util.Optional;
import java.util.concurrent.SynchronousQueue;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** Serves a practice's folder on the loopback address, and nowhere else. */
public final class PageServer implements AutoCloseable {

  /** More at once are turned away; a thread that waits for a slow browser costs little. */
  private static final int MOST_THREADS = 256;

  private static final int WAITING = 64;

  /** A request that has not come in whole by then is given up. */
  private static final String REQUEST_SECONDS = "15";

  private static final int SECONDS_TO_END = 1;

  static {
    // The server reads these once, when its first class is loaded.
    setUnlessSet("sun.net.httpserver.maxReqTime", REQUEST_SECONDS);
    setUnlessSet("sun.net.httpserver.maxReqHeaders", "60");
    setUnlessSet("sun.net.httpserver.maxIdleConnections", "64");
  }

  private final HttpServer server;
  private final ThreadPoolExecutor threads;
  private final Guard guard;
  private final Rooms rooms;
  private final Consumer<String> tell;

  private PageServer(HttpServer server, Rooms rooms, Consumer<String> tell) {
    this.server = server;
    this.guard = new Guard(server.getAddress().getPort());
    this.rooms = rooms;
    this.tell = tell;
    this.threads =
        new ThreadPoolExecutor(8, MOST_THREADS, 30, TimeUnit.SECONDS, new SynchronousQueue<>());
  }

  private static void setUnlessSet(String key, String value) {
    if (System.getProperty(key) == null) {
      System.setProperty(key, value);
    }
  }

  /**
   * Begins to serve.
   *
   * @param port 1 to 65535, or 0 for any that is free
   * @param tell is told, in a sentence without anything of a patient, where the program itself
   *     fails
   * @throws IOException where the port is taken
   */
  public static PageServer open(PracticeFolder folder, int port, Clock clock, Consumer<String> tell)
      throws IOException {
    HttpServer server =
        HttpServer.create(
            new InetSocketAddress(InetAddress.getByAddress(new byte[] {127, 0, 0, 1}), port),
            WAITING);
    PageServer page = new PageServer(server, new Rooms(folder, clock), tell);
    server.createContext("/", page::handle);
    server.setExecutor(page.threads);
    server.start();
    return page;
  }

  /** The address to open: it holds the token that lets a browser in. */
  public String address() {
    return guard.address();
  }

  /** Lets what is being answered come to its end, for a second, and ends. */
  @Override
  public void close() {
    rooms.close();
    server.stop(SECONDS_TO_END);
    threads.shutdownNow();
  }

  private void handle(HttpExchange exchange) {
    try {
      send(exchange, reply(exchange));
    } catch (IOException gone) {
      // Whoever asked has gone; there is nobody to tell.
    } finally {
      exchange.close();
    }
  }

  private Reply reply(HttpExchange exchange) throws IOException {
    Optional<Reply> refusal = guard.refusal(exchange);
    if (refusal.isPresent()) {
      return refusal.get();
    }
    byte @Nullable [] body = Guard.body(exchange);
    if (body == null) {
      return Reply.text(
          413, "At most " + Guard.most(exchange.getRequestURI().getPath()) + " bytes are taken.\n");
    }
    try {
      return rooms.answer(
          new Request(
              exchange.getRequestMethod(),
              Request.parts(exchange.getRequestURI().getPath()),
              Request.decoded(exchange.getRequestURI().getRawQuery()),
              exchange.getRequestHeaders().getFirst("If-Match"),
              body));
    } catch (RuntimeException | Error wrong) {
      tell.accept(
          "A fault of the program while it answered a request: "
              + wrong.getClass().getName()
              + ".");
      return Reply.text(500, "A fault of the program. Nothing was written; please report it.\n");
    }
  }

  private static void send(HttpExchange exchange, Reply reply) throws IOException {
    Guard.harden(exchange.getResponseHeaders(), exchange.getRequestURI().getPath());
    exchange.getResponseHeaders().set("Content-Type", reply.type());
    reply.headers().forEach(exchange.getResponseHeaders()::set);
    boolean bare = exchange.getRequestMethod().equals("HEAD") || reply.body().length == 0;
    exchange.sendResponseHeaders(reply.status(), bare ? -1 : reply.body().length);
    if (!bare) {
      try (OutputStream out = exchange.getResponseBody()) {
        out.write(reply.body());
      }
    }
  }
}
