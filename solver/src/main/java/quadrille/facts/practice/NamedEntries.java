package quadrille.facts.practice;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiFunction;
import quadrille.document.FaultWords;
import quadrille.document.Fields;
import quadrille.document.Node;

/**
 * Reads an object of named entries, such as the inserts: a practice file changes an entry, adds one
 * or removes one with {@code null}.
 *
 * @param keys all keys of an entry
 * @param needed the keys that a new entry must have
 */
record NamedEntries(String what, List<String> keys, List<String> needed) {

  /**
   * @param node the object, with the practice file laid over the default
   * @param known names of the default practice, in order
   * @return in the order of the default, new ones last
   */
  <T> Map<String, T> read(Node node, List<String> known, BiFunction<String, Fields, T> reader) {
    Fields entries = node.map();
    Map<String, T> read = new LinkedHashMap<>();
    for (String name : entries.keys()) {
      Node entry = entries.required(name);
      boolean isNew = !known.contains(name);
      if (entry.isNull()) {
        if (isNew) {
          entry.fault(
              "null for " + FaultWords.quote(name),
              "null only to remove " + what + " of the default" + suggestion(known, name));
        }
      } else if (isNew && entry.isObject() && !missing(entry).isEmpty()) {
        entry.fault(
            "a new name "
                + FaultWords.quote(name)
                + " without "
                + FaultWords.either(missing(entry)),
            "a name of the default, or all of "
                + String.join(", ", needed)
                + suggestion(known, name));
      } else {
        T value = reader.apply(name, entry.object(keys));
        if (isPlain(name)) {
          read.put(name, value);
        } else {
          entry.fault(
              "the name " + FaultWords.quote(name),
              "a name of 1 to 60 letters, digits, spaces and the signs - . , ( ) %");
        }
      }
    }
    return read;
  }

  private List<String> missing(Node entry) {
    Fields fields = entry.map();
    return needed.stream().filter(key -> !fields.has(key)).toList();
  }

  private static String suggestion(List<String> known, String name) {
    return FaultWords.suggestion(known, name);
  }

  /** Names go into plans and messages, so they must not break a line or look empty. */
  private static boolean isPlain(String name) {
    return name.length() <= 60
        && name.equals(name.strip())
        && !name.isEmpty()
        && name.codePoints()
            .allMatch(point -> Character.isLetterOrDigit(point) || " -.,()%".indexOf(point) >= 0);
  }
}
