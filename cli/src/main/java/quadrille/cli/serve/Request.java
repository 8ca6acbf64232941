package quadrille.cli.serve;

import java.net.URLDecoder;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.document.Expected;
import quadrille.document.InvalidDocumentException;
import quadrille.document.TextFiles;

/**
 * A request that the guard let in.
 *
 * @param path its parts, without the first slash
 * @param query decoded; of a name that is there twice, the first
 * @param ifMatch what the browser read of the file that it is about to change; null where it did
 *     not say
 */
record Request(
    String method,
    List<String> path,
    Map<String, String> query,
    @Nullable String ifMatch,
    byte[] body) {

  private static final String NOTHING = "nothing";

  static Map<String, String> decoded(@Nullable String pairs) {
    Map<String, String> decoded = new LinkedHashMap<>();
    for (String pair : (pairs == null ? "" : pairs).split("&")) {
      int equals = pair.indexOf('=');
      if (equals > 0) {
        decoded.putIfAbsent(plain(pair.substring(0, equals)), plain(pair.substring(equals + 1)));
      }
    }
    return decoded;
  }

  private static String plain(String encoded) {
    try {
      return URLDecoder.decode(encoded, StandardCharsets.UTF_8);
    } catch (IllegalArgumentException broken) {
      return "";
    }
  }

  static String encoded(String plain) {
    return URLEncoder.encode(plain, StandardCharsets.UTF_8);
  }

  static List<String> parts(String path) {
    return Stream.of(path.split("/")).filter(part -> !part.isEmpty()).toList();
  }

  /** A part of the path; empty where it has not so many. */
  String part(int at) {
    return at < path.size() ? path.get(at) : "";
  }

  /** Whether it asks for something without changing anything. */
  boolean reading() {
    return method.equals("GET") || method.equals("HEAD");
  }

  boolean is(String method) {
    return this.method.equals(method);
  }

  String text() throws InvalidDocumentException {
    return TextFiles.decode("what was sent", body);
  }

  Map<String, String> form() throws InvalidDocumentException {
    return decoded(text());
  }

  /** What the browser believes to be there; empty where it did not say. */
  Optional<Expected> expected() {
    return Optional.ofNullable(ifMatch)
        .map(
            revision ->
                revision.equals(NOTHING) ? Expected.NOTHING : new Expected(false, revision));
  }

  /** As the browser is told of what is there. */
  static String revision(Expected there) {
    return there.revision() == null ? NOTHING : there.revision();
  }
}
