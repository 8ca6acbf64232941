package quadrille.document;

import com.fasterxml.jackson.core.io.JsonStringEncoder;
import java.math.BigDecimal;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * JSON laid out to be read by people: what is short stands on one line, all else on a line for each
 * of its parts. Numbers have no exponent and no trailing zeros.
 */
public final class JsonLayout {

  private static final int WIDTH = 100;
  private static final int FIGURES_WIDTH = 92;

  private static final Set<String> FIGURE = Set.of("value", "source");

  /** What stands on one line; all else stands on a line for each of its parts. */
  private enum Style {
    /** What is short, and a record in a list. */
    PEOPLE,
    /** What is short, and a value with its source, however long. */
    FIGURES,
    /** All but lists of records; a record in a list has its plain values on one line. */
    ROWS
  }

  private final Style style;

  private JsonLayout(Style style) {
    this.style = style;
  }

  /** A document laid out already, to stand within a {@link #line}; its line ends become spaces. */
  public record Document(String text) {}

  /**
   * The text of a tree of maps, lists, strings, numbers, booleans and nulls, ended by a line end. A
   * record in a list is one line, as in a table, if it holds plain values only.
   */
  public static String text(Map<String, ? extends @Nullable Object> root) {
    return new JsonLayout(Style.PEOPLE).laidOut(root);
  }

  /** As {@link #text}, but for figures: a value with its source is one line, however long. */
  public static String figures(Map<String, ? extends @Nullable Object> root) {
    return new JsonLayout(Style.FIGURES).laidOut(root);
  }

  /**
   * As {@link #text}, but for rows of records: a record in a list has its plain values on one line
   * and each record that it holds on one of its own; all else is one line, however long.
   */
  public static String rows(Map<String, ? extends @Nullable Object> root) {
    return new JsonLayout(Style.ROWS).laidOut(root);
  }

  /**
   * The same on one line without spaces or a line end; {@link Document}s keep theirs, and decimals
   * their places.
   */
  public static String line(Map<String, ? extends @Nullable Object> root) {
    StringBuilder out = new StringBuilder();
    line(out, root, "");
    return out.toString();
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
    return switch (style) {
      case PEOPLE -> flat(map) && (inList || fits(map, indent, WIDTH));
      case FIGURES ->
          map.keySet().equals(FIGURE)
              || (noMapIn(map.values()) && fits(map, indent, FIGURES_WIDTH));
      case ROWS -> !inList;
    };
  }

  private static boolean noMapIn(Collection<?> values) {
    return values.stream().noneMatch(Map.class::isInstance);
  }

  private void value(StringBuilder out, @Nullable Object value, int indent, boolean inList) {
    if (value instanceof Map<?, ?> map) {
      if (oneLine(map, indent, inList)) {
        line(out, map, " ");
      } else if (style == Style.ROWS && inList) {
        row(out, map, indent);
      } else {
        object(out, map, indent);
      }
    } else if (value instanceof List<?> list) {
      boolean fits = style == Style.ROWS || fits(list, indent, WIDTH);
      if (list.stream().allMatch(JsonLayout::plain) && fits) {
        line(out, list, " ");
      } else {
        array(out, list, indent);
      }
    } else {
      line(out, value, " ");
    }
  }

  private static void row(StringBuilder out, Map<?, ?> map, int indent) {
    String separator = "{ ";
    for (Map.Entry<?, ?> field : map.entrySet()) {
      boolean record = field.getValue() instanceof Map;
      out.append(record ? ",\n" + " ".repeat(indent + 2) : separator);
      field(out, field, " ");
      separator = ", ";
    }
    out.append(" }");
  }

  private void object(StringBuilder out, Map<?, ?> map, int indent) {
    out.append('{');
    String separator = "\n";
    for (Map.Entry<?, ?> field : map.entrySet()) {
      out.append(separator).append(" ".repeat(indent + 2));
      line(out, field.getKey(), " ");
      out.append(": ");
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

  /**
   * @param gap what stands after commas and colons, and within braces
   */
  private static void line(StringBuilder out, @Nullable Object value, String gap) {
    if (value instanceof Map<?, ?> map) {
      String separator = "{" + gap;
      for (Map.Entry<?, ?> field : map.entrySet()) {
        out.append(separator);
        field(out, field, gap);
        separator = "," + gap;
      }
      out.append(map.isEmpty() ? "{}" : gap + "}");
    } else if (value instanceof List<?> list) {
      String separator = "[";
      for (Object element : list) {
        out.append(separator);
        line(out, element, gap);
        separator = "," + gap;
      }
      out.append(list.isEmpty() ? "[]" : "]");
    } else if (value instanceof Document document) {
      out.append(document.text().lines().map(String::strip).collect(Collectors.joining(" ")));
    } else if (value instanceof String text) {
      out.append('"').append(JsonStringEncoder.getInstance().quoteAsString(text)).append('"');
    } else if (value instanceof BigDecimal number) {
      out.append(gap.isEmpty() ? number.toPlainString() : number(number));
    } else if (value instanceof Double number) {
      out.append(number(number));
    } else {
      out.append(value);
    }
  }

  private static void field(StringBuilder out, Map.Entry<?, ?> field, String gap) {
    line(out, field.getKey(), gap);
    out.append(':').append(gap);
    line(out, field.getValue(), gap);
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
    line(line, value, " ");
    return line.length() <= width - indent;
  }
}
