package quadrille.document;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/**
 * A table of broken documents, and what a reader must say of each, word for word. A case starts
 * with a line {@code === title | name of the document | what the schema says}, of which the last
 * two may be missing; the document follows, then a line {@code --> message} for each fault.
 */
public final class BrokenTexts {

  /**
   * A broken document.
   *
   * @param source its name; empty where the table names none
   * @param schema what the published schema says of it; empty where the table does not tell
   * @param faults the exact messages, in order
   */
  public record Case(String title, String source, String schema, String text, List<String> faults) {
    @Override
    public String toString() {
      return title;
    }
  }

  private BrokenTexts() {}

  /** The cases of a file that lies beside a class. */
  public static List<Case> in(Class<?> beside, String file) {
    List<Case> cases = new ArrayList<>();
    List<String> parts = List.of(text(beside, file).split("(?m)^=== "));
    for (String part : parts.subList(1, parts.size())) {
      int end = part.indexOf('\n');
      String[] head = part.substring(0, end).split(" \\| ");
      int faults = part.indexOf("\n--> ", end);
      cases.add(
          new Case(
              head[0],
              head.length > 1 ? head[1] : "",
              head.length > 2 ? head[2] : "",
              part.substring(end + 1, faults + 1),
              part.substring(faults + 1)
                  .lines()
                  .filter(line -> !line.isEmpty())
                  .map(line -> line.substring("--> ".length()))
                  .toList()));
    }
    return cases;
  }

  private static String text(Class<?> beside, String file) {
    try (InputStream in = beside.getResourceAsStream(file)) {
      return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}
