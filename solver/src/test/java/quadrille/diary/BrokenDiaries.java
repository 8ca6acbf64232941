package quadrille.diary;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/** The cases of {@code broken-diaries.txt}. */
final class BrokenDiaries {

  /**
   * @param schema what the published schema says of it
   * @param faults the exact messages, in order
   */
  record Case(String title, String source, String schema, String text, List<String> faults) {
    @Override
    public String toString() {
      return title;
    }
  }

  private BrokenDiaries() {}

  static List<Case> all() {
    List<Case> cases = new ArrayList<>();
    List<String> parts = List.of(file().split("(?m)^=== "));
    for (String part : parts.subList(1, parts.size())) {
      int end = part.indexOf('\n');
      String[] head = part.substring(0, end).split(" \\| ");
      int faults = part.indexOf("\n--> ", end);
      cases.add(
          new Case(
              head[0],
              head[1],
              head[2],
              part.substring(end + 1, faults + 1),
              part.substring(faults + 1)
                  .lines()
                  .filter(line -> !line.isEmpty())
                  .map(line -> line.substring("--> ".length()))
                  .toList()));
    }
    return cases;
  }

  private static String file() {
    try (InputStream in = BrokenDiaries.class.getResourceAsStream("broken-diaries.txt")) {
      return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}
