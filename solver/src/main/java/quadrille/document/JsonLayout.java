package quadrille.document;

import com.fasterxml.jackson.core.io.JsonStringEncoder;
import java.math.BigDecimal;
import java.util.Collection;
import java.util.List;
import java.util.Map;

/**
 * JSON laid out to be read by people: a record in a list is one line, as in a table, if it holds
 * plain values only; other values are one line where they are short.
 */
public final class JsonLayout {

  private static final int WIDTH = 100;

  private JsonLayout() {}

  /** The text of a tree of maps, lists, strings, numbers and booleans, ended by a line end. */
  public static String text(Map<String, ?> root) {
    StringBuilder out = new StringBuilder();
    object(out, root, 0);
    return out.append('\n').toString();
  }

  private static void value(StringBuilder out, Object value, int indent, boolean inList) {
    if (value instanceof Map<?, ?> map) {
      if (flat(map) && (inList || fits(map, indent))) {
        line(out, map);
      } else {
        object(out, map, indent);
      }
    } else if (value instanceof List<?> list) {
      if (list.stream().allMatch(JsonLayout::plain) && fits(list, indent)) {
        line(out, list);
      } else {
        array(out, list, indent);
      }
    } else {
      line(out, value);
    }
  }

  private static void object(StringBuilder out, Map<?, ?> map, int indent) {
    out.append('{');
    String separator = "\n";
    for (Map.Entry<?, ?> field : map.entrySet()) {
      out.append(separator).append(" ".repeat(indent + 2));
      key(out, field.getKey());
      value(out, field.getValue(), indent + 2, false);
      separator = ",\n";
    }
    out.append('\n').append(" ".repeat(indent)).append('}');
  }

  private static void array(StringBuilder out, List<?> list, int indent) {
    out.append('[');
    String separator = "\n";
    for (Object element : list) {
      out.append(separator).append(" ".repeat(indent + 2));
      value(out, element, indent + 2, true);
      separator = ",\n";
    }
    out.append('\n').append(" ".repeat(indent)).append(']');
  }

  private static void line(StringBuilder out, Object value) {
    if (value instanceof Map<?, ?> map) {
      String separator = "{ ";
      for (Map.Entry<?, ?> field : map.entrySet()) {
        out.append(separator);
        key(out, field.getKey());
        line(out, field.getValue());
        separator = ", ";
      }
      out.append(map.isEmpty() ? "{}" : " }");
    } else if (value instanceof List<?> list) {
      String separator = "[";
      for (Object element : list) {
        out.append(separator);
        line(out, element);
        separator = ", ";
      }
      out.append(list.isEmpty() ? "[]" : "]");
    } else if (value instanceof String text) {
      out.append('"').append(JsonStringEncoder.getInstance().quoteAsString(text)).append('"');
    } else if (value instanceof BigDecimal number) {
      out.append(number.signum() == 0 ? "0" : number.stripTrailingZeros().toPlainString());
    } else {
      out.append(value);
    }
  }

  private static void key(StringBuilder out, Object key) {
    line(out, key);
    out.append(": ");
  }

  private static boolean flat(Map<?, ?> map) {
    return map.values().stream()
        .allMatch(
            value ->
                plain(value)
                    || value instanceof List<?> list && list.stream().allMatch(JsonLayout::plain));
  }

  private static boolean plain(Object value) {
    return !(value instanceof Map) && !(value instanceof Collection);
  }

  private static boolean fits(Object value, int indent) {
    StringBuilder line = new StringBuilder();
    line(line, value);
    return line.length() <= WIDTH - indent;
  }
}
