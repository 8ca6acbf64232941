package quadrille.document;

import com.fasterxml.jackson.core.io.JsonStringEncoder;
import java.math.BigDecimal;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * JSON laid out to be read by people: what is short stands on one line, all else on a line for each
 * of its parts. Numbers have no exponent and no trailing zeros.
 */
public final class JsonLayout {

  private static final int WIDTH = 100;
  private static final int FIGURES_WIDTH = 92;

  private static final Set<String> FIGURE = Set.of("value", "source");

  private final boolean figures;

  private JsonLayout(boolean figures) {
    this.figures = figures;
  }

  /**
   * The text of a tree of maps, lists, strings, numbers, booleans and nulls, ended by a line end. A
   * record in a list is one line, as in a table, if it holds plain values only.
   */
  public static String text(Map<String, ? extends @Nullable Object> root) {
    return new JsonLayout(false).laidOut(root);
  }

  /** As {@link #text}, but for figures: a value with its source is one line, however long. */
  public static String figures(Map<String, ? extends @Nullable Object> root) {
    return new JsonLayout(true).laidOut(root);
  }

  /** A number as it is written: whole where it is whole, and never with an exponent. */
  public static String number(double value) {
    return number(BigDecimal.valueOf(value));
  }

  private static String number(BigDecimal value) {
    return value.signum() == 0 ? "0" : value.stripTrailingZeros().toPlainString();
  }

  private String laidOut(Map<?, ?> root) {
    StringBuilder out = new StringBuilder();
    object(out, root, 0);
    return out.append('\n').toString();
  }

  private boolean oneLine(Map<?, ?> map, int indent, boolean inList) {
    if (figures) {
      return map.keySet().equals(FIGURE)
          || (map.values().stream().noneMatch(Map.class::isInstance)
              && fits(map, indent, FIGURES_WIDTH));
    }
    return flat(map) && (inList || fits(map, indent, WIDTH));
  }

  private void value(StringBuilder out, @Nullable Object value, int indent, boolean inList) {
    if (value instanceof Map<?, ?> map) {
      if (oneLine(map, indent, inList)) {
        line(out, map);
      } else {
        object(out, map, indent);
      }
    } else if (value instanceof List<?> list) {
      if (list.stream().allMatch(JsonLayout::plain) && fits(list, indent, WIDTH)) {
        line(out, list);
      } else {
        array(out, list, indent);
      }
    } else {
      line(out, value);
    }
  }

  private void object(StringBuilder out, Map<?, ?> map, int indent) {
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

  private void array(StringBuilder out, List<?> list, int indent) {
    out.append('[');
    String separator = "\n";
    for (Object element : list) {
      out.append(separator).append(" ".repeat(indent + 2));
      value(out, element, indent + 2, true);
      separator = ",\n";
    }
    out.append('\n').append(" ".repeat(indent)).append(']');
  }

  private static void line(StringBuilder out, @Nullable Object value) {
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
      out.append(number(number));
    } else if (value instanceof Double number) {
      out.append(number(number));
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

  private static boolean plain(@Nullable Object value) {
    return !(value instanceof Map) && !(value instanceof Collection);
  }

  private static boolean fits(Object value, int indent, int width) {
    StringBuilder line = new StringBuilder();
    line(line, value);
    return line.length() <= width - indent;
  }
}
