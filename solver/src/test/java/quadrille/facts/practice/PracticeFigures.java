package quadrille.facts.practice;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Lists every number of a practice with its source. */
final class PracticeFigures {

  private PracticeFigures() {}

  /**
   * A number and where it stands.
   *
   * @param pointer JSON pointer into the practice file, such as {@code /numbing/mlPerMinute}
   */
  record Entry(String pointer, Figure figure) {}

  /** All of them, in the order of the file. */
  static List<Entry> of(Practice practice) {
    List<Entry> entries = new ArrayList<>();
    collect("", PracticeWriter.tree(practice), entries);
    return List.copyOf(entries);
  }

  private static void collect(String pointer, @Nullable Object value, List<Entry> entries) {
    if (value instanceof Map<?, ?> map) {
      if (map.get("value") instanceof Number number && map.get("source") instanceof String source) {
        entries.add(new Entry(pointer, new Figure(number.doubleValue(), source)));
        return;
      }
      map.forEach(
          (key, member) ->
              collect(
                  pointer + "/" + String.valueOf(key).replace("~", "~0").replace("/", "~1"),
                  member,
                  entries));
    } else if (value instanceof List<?> list) {
      for (int i = 0; i < list.size(); i++) {
        collect(pointer + "/" + i, list.get(i), entries);
      }
    }
  }
}
