package quadrille.facts.practice;

import java.util.Collection;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import quadrille.document.Fields;
import quadrille.document.Node;

/**
 * Readers that all parts of a practice file share: numbers with their source, and what may be left
 * out. A source never outlives the value that it was given for: where a practice file changes the
 * value alone, the practice itself becomes the source.
 */
final class FigureReading {

  /**
   * The default practice's name in faults; no file can have it, since a path has no parentheses.
   */
  static final String DEFAULTS = "(default practice)";

  private static final int SOURCE_LENGTH = 400;

  private FigureReading() {}

  /** A number, bare or with its source, both bounds included. */
  static Figure number(Node node, double least, double most) {
    return figure(node, value -> value.number(least, most));
  }

  /** A whole number, bare or with its source, both bounds included. */
  static Figure whole(Node node, int least, int most) {
    return figure(node, value -> value.whole(least, most));
  }

  private static Figure figure(Node node, Function<Node, Number> reader) {
    if (!node.isObject()) {
      return new Figure(reader.apply(node).doubleValue(), Figure.OWN);
    }
    Fields fields = node.object("value", "source", "calibrated");
    Node value = fields.required("value");
    double read = reader.apply(value).doubleValue();
    String source =
        given(fields, "source")
            .filter(text -> isOwn(text) || !isOwn(value))
            .map(text -> text.text(SOURCE_LENGTH))
            .orElse(Figure.OWN);
    boolean calibrated =
        given(fields, "calibrated").filter(FigureReading::isOwn).map(Node::truth).orElse(false);
    return calibrated
        ? new Figure(read, source, Figure.Basis.CALIBRATED)
        : Figure.written(read, source);
  }

  /**
   * The {@code source} of an object whose plain members it speaks for.
   *
   * @param plain the members that have no source of their own
   */
  static String source(Fields fields, String... plain) {
    Optional<Node> source = given(fields, "source");
    if (source.isEmpty()) {
      return Figure.OWN;
    }
    String text = source.get().text(SOURCE_LENGTH);
    boolean changed =
        !isOwn(source.get())
            && List.of(plain).stream()
                .flatMap(key -> fields.optional(key).stream())
                .anyMatch(FigureReading::isOwn);
    return changed ? Figure.OWN + ", changed from: " + text : text;
  }

  /** Whether a value stands in the practice's own file. */
  static boolean isOwn(Node node) {
    return !node.place().source().equals(DEFAULTS);
  }

  /** Of two values that clash, the one that the practice's own file has, or else the first. */
  static Node blamed(Node first, Node second) {
    return !isOwn(first) && isOwn(second) ? second : first;
  }

  /** A member that may be left out; {@code null} leaves it out, whatever the default has. */
  static Optional<Node> given(Fields fields, String key) {
    return fields.optional(key).filter(node -> !node.isNull());
  }

  /** A member that is false where it is left out. */
  static boolean truth(Fields fields, String key) {
    return given(fields, key).map(Node::truth).orElse(false);
  }

  /** An unmodifiable set in the order of the enum. */
  static <E extends Enum<E>> Set<E> set(Class<E> type, Collection<E> values) {
    EnumSet<E> set = EnumSet.noneOf(type);
    set.addAll(values);
    return Collections.unmodifiableSet(set);
  }
}
