package quadrille.facts.practice;

import java.math.BigDecimal;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import quadrille.document.JsonLayout;

/**
 * A setting of a practice, as its file has it.
 *
 * @param path the keys that lead to it; places in lists count from 0
 * @param value as it is written; several, separated by commas, in quotes where they hold one
 * @param source where a figure comes from; empty where it is no figure
 * @param calibrated whether it was learned from recorded visits
 */
public record Setting(
    List<String> path, Kind kind, String value, String source, boolean calibrated) {

  /** What a setting can be. */
  public enum Kind {
    /** A number with its source. */
    FIGURE,
    NUMBER,
    TRUTH,
    TEXT,
    NUMBERS,
    TEXTS
  }

  public Setting {
    path = List.copyOf(path);
  }

  /** Its path as a JSON pointer (RFC 6901). */
  public String pointer() {
    return path.stream()
        .map(key -> "/" + key.replace("~", "~0").replace("/", "~1"))
        .collect(Collectors.joining());
  }

  /** Whether the same is set, from the same source. */
  public boolean same(@Nullable Setting other) {
    return other != null && value.equals(other.value()) && source.equals(other.source());
  }

  static String written(@Nullable Object value) {
    if (value instanceof List<?> list) {
      return list.stream().map(Setting::item).collect(Collectors.joining(", "));
    }
    return value instanceof Double || value instanceof BigDecimal
        ? JsonLayout.number(((Number) value).doubleValue())
        : String.valueOf(value);
  }

  private static String item(@Nullable Object value) {
    String text = written(value);
    return text.contains(",") || text.startsWith("\"")
        ? '"' + text.replace("\"", "\"\"") + '"'
        : text;
  }
}
