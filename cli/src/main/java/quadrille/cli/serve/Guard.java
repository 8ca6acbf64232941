package quadrille.cli.serve;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.sun.net.httpserver.Headers;
import com.sun.net.httpserver.HttpExchange;
import java.io.IOException;
import java.io.InputStream;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Who is answered: a browser of this machine that was let in by the address that the program
 * printed, and no page of another origin in it. The address holds a token, which the first request
 * swaps for a cookie; both are random, and end with the program.
 */
final class Guard {

  /** A mouth is some 2,000 bytes as tooth lines, and some 10,000 as JSON. */
  static final int MOST_BYTES = 1 << 20;

  /** What another program exports has more words; here it comes as a form's field. */
  private static final int MOST_IMPORTED = 4 << 20;

  private static final String ENTER = "/enter/";
  private static final Set<String> READING = Set.of("GET", "HEAD");

  /**
   * What a browser may do with our pages. Scripts and styles are files of our own, nothing else is
   * loaded, nobody frames us, and no address of ours goes out.
   */
  private static final String POLICY =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self';"
          + " form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

  private final int port;
  private final String token = random();
  private final String cookie = random();
  private final Pattern ours;

  Guard(int port) {
    this.port = port;
    this.ours = Pattern.compile("(^|;\\s*)" + name() + "=([0-9a-f]{64})(;|$)");
  }

  private static String random() {
    byte[] bytes = new byte[32];
    new SecureRandom().nextBytes(bytes);
    return HexFormat.of().formatHex(bytes);
  }

  /** Ports share cookies; so that two servers of one machine do not take each other's. */
  private String name() {
    return "quadrille-" + port;
  }

  /** The address that lets a browser in. */
  String address() {
    return "http://127.0.0.1:" + port + ENTER + token;
  }

  /** Why a request is not answered; empty where the rooms may see it. */
  Optional<Reply> refusal(HttpExchange exchange) {
    Headers headers = exchange.getRequestHeaders();
    @Nullable String host = only(headers, "Host");
    if (host == null || !hosts().contains(host)) {
      return Optional.of(Reply.text(421, "This is not the address of the page.\n"));
    }
    boolean reading = READING.contains(exchange.getRequestMethod());
    @Nullable String origin = only(headers, "Origin");
    boolean own = origin != null && origin.equals("http://" + host);
    if (origin == null ? !reading : !own) {
      return Optional.of(Reply.text(403, "This does not come from a page of ours.\n"));
    }
    String path = exchange.getRequestURI().getRawPath();
    if (reading && path.startsWith(ENTER)) {
      return Optional.of(
          same(path.substring(ENTER.length()), token)
              ? Reply.to("/")
                  .with("Set-Cookie", name() + "=" + cookie + "; Path=/; HttpOnly; SameSite=Strict")
              : outside());
    }
    if (!letIn(headers)) {
      return Optional.of(outside());
    }
    return Optional.empty();
  }

  private static Reply outside() {
    return Reply.text(
        403, "Open the page by the address that quadrille serve printed when it began.\n");
  }

  private List<String> hosts() {
    return List.of("127.0.0.1:" + port, "localhost:" + port);
  }

  private boolean letIn(Headers headers) {
    return Stream.ofNullable(headers.get("Cookie"))
        .flatMap(List::stream)
        .flatMap(line -> ours.matcher(line).results())
        .anyMatch(found -> same(found.group(2), cookie));
  }

  /** Null where there is none, or more than one. */
  private static @Nullable String only(Headers headers, String name) {
    @Nullable List<String> values = headers.get(name);
    return values == null || values.size() != 1 ? null : values.get(0);
  }

  /** In a time that tells nothing. */
  private static boolean same(String given, String secret) {
    return MessageDigest.isEqual(given.getBytes(UTF_8), secret.getBytes(UTF_8));
  }

  /** How many bytes are taken at a path. */
  static int most(String path) {
    return path.equals("/import") ? MOST_IMPORTED : MOST_BYTES;
  }

  /** The body; null where it is larger than anything that we ask for. */
  static byte @Nullable [] body(HttpExchange exchange) throws IOException {
    @Nullable String length = only(exchange.getRequestHeaders(), "Content-Length");
    if (length != null && length.length() > 7) {
      return null;
    }
    int most = most(exchange.getRequestURI().getPath());
    try (InputStream in = exchange.getRequestBody()) {
      byte[] body = in.readNBytes(most + 1);
      return body.length > most ? null : body;
    }
  }

  /** What every answer says to the browser. */
  static void harden(Headers headers, String path) {
    headers.set(
        "Content-Security-Policy",
        // Pages to print are documents of their own, with their styles within.
        path.endsWith("/print")
            ? "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'"
            : POLICY);
    headers.set("X-Content-Type-Options", "nosniff");
    // Without any, forms of our own would come from no origin.
    headers.set("Referrer-Policy", "same-origin");
    headers.set("Cache-Control", "no-store");
    headers.set("Cross-Origin-Opener-Policy", "same-origin");
    headers.set("Cross-Origin-Resource-Policy", "same-origin");
    headers.set("Permissions-Policy", "camera=(), microphone=(), geolocation=()");
  }
}
