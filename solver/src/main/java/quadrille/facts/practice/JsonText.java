package quadrille.facts.practice;

import com.fasterxml.jackson.core.io.JsonStringEncoder;
import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Lays JSON out for people: a number with its source, a short list and a short object stand on one
 * line.
 */
final class JsonText {

  private static final int LIST_WIDTH = 100;
  private static final int OBJECT_WIDTH = 92;

  private JsonText() {}

  /**
   * @param value holds maps with text keys, lists, texts, numbers, booleans and nulls
   */
  static String of(Map<String, @Nullable Object> value) {
    StringBuilder text = new StringBuilder();
    append(text, value, 0);
    return text.append('\n').toString();
  }

  private static void append(StringBuilder text, @Nullable Object value, int indent) {
    if (!(value instanceof Map || value instanceof List) || standsOnOneLine(value, indent)) {
      text.append(oneLine(value));
      return;
    }
    String pad = " ".repeat(indent + 2);
    String before = "\n" + pad;
    if (value instanceof Map<?, ?> map) {
      text.append('{');
      for (Map.Entry<?, ?> entry : map.entrySet()) {
        text.append(before).append(quoted(entry.getKey())).append(": ");
        append(text, entry.getValue(), indent + 2);
        before = ",\n" + pad;
      }
      text.append('\n').append(" ".repeat(indent)).append('}');
    } else if (value instanceof List<?> list) {
      text.append('[');
      for (Object item : list) {
        text.append(before);
        append(text, item, indent + 2);
        before = ",\n" + pad;
      }
      text.append('\n').append(" ".repeat(indent)).append(']');
    }
  }

  private static boolean standsOnOneLine(@Nullable Object value, int indent) {
    if (value instanceof Map<?, ?> map) {
      boolean figure = map.size() == 2 && map.containsKey("value") && map.containsKey("source");
      return figure
          || (map.values().stream().noneMatch(Map.class::isInstance)
              && oneLine(value).length() + indent <= OBJECT_WIDTH);
    }
    return value instanceof List<?> list
        && list.stream().noneMatch(item -> item instanceof Map || item instanceof List)
        && oneLine(value).length() + indent <= LIST_WIDTH;
  }

  private static String oneLine(@Nullable Object value) {
    if (value instanceof Map<?, ?> map) {
      List<String> members =
          map.entrySet().stream()
              .map(entry -> quoted(entry.getKey()) + ": " + oneLine(entry.getValue()))
              .toList();
      return members.isEmpty() ? "{}" : "{ " + String.join(", ", members) + " }";
    }
    if (value instanceof List<?> list) {
      return "[" + String.join(", ", list.stream().map(JsonText::oneLine).toList()) + "]";
    }
    if (value instanceof Number number) {
      return number(number.doubleValue());
    }
    return value == null || value instanceof Boolean ? String.valueOf(value) : quoted(value);
  }

  /** Whole where it is whole, and never with an exponent. */
  static String number(double value) {
    String text = BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    return text.equals("-0") ? "0" : text;
  }

  private static String quoted(Object text) {
    return '"'
        + String.valueOf(JsonStringEncoder.getInstance().quoteAsString(text.toString()))
        + '"';
  }
}
