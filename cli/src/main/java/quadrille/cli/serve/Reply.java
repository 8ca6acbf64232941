package quadrille.cli.serve;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.document.JsonLayout;

/** What is answered. */
record Reply(int status, String type, byte[] body, Map<String, String> headers) {

  static final String HTML = "text/html; charset=utf-8";

  static Reply html(String text) {
    return html(200, text);
  }

  static Reply html(int status, String text) {
    return new Reply(status, HTML, text.getBytes(UTF_8), Map.of());
  }

  static Reply json(Map<String, ? extends @Nullable Object> value) {
    return json(200, value);
  }

  static Reply json(int status, Map<String, ? extends @Nullable Object> value) {
    return new Reply(status, "application/json", JsonLayout.text(value).getBytes(UTF_8), Map.of());
  }

  static Reply text(int status, String text) {
    return new Reply(status, "text/plain; charset=utf-8", text.getBytes(UTF_8), Map.of());
  }

  /** Names and values in turn, in this order. */
  static Map<String, Object> of(Object... namesAndValues) {
    Map<String, Object> map = new LinkedHashMap<>();
    for (int i = 0; i + 1 < namesAndValues.length; i += 2) {
      map.put(namesAndValues[i].toString(), namesAndValues[i + 1]);
    }
    return map;
  }

  /** To another page, which is asked for anew. */
  static Reply to(String path) {
    return new Reply(303, "text/plain; charset=utf-8", new byte[0], Map.of("Location", path));
  }

  Reply with(String header, String value) {
    Map<String, String> more = new LinkedHashMap<>(headers);
    more.put(header, value);
    return new Reply(status, type, body, more);
  }
}
