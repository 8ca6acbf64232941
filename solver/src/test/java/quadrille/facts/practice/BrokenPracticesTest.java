package quadrille.facts.practice;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import quadrille.document.InvalidDocumentException;

/**
 * Reads each practice file of {@code broken-practices.txt} and compares every message. A case there
 * is a line {@code === name}, the file, a line {@code ---}, and the messages.
 */
final class BrokenPracticesTest {

  private record Case(String name, String file, String messages) {}

  @TestFactory
  List<DynamicTest> everyFaultIsFoundAndWorded() throws IOException {
    return cases().stream()
        .map(
            one ->
                DynamicTest.dynamicTest(
                    one.name(), () -> assertEquals(one.messages(), messages(one.file()))))
        .toList();
  }

  @Test
  void thereAreManyCasesAndNoneTwice() throws IOException {
    List<Case> cases = cases();
    assertTrue(cases.size() >= 70, "only " + cases.size());
    assertEquals(cases.size(), cases.stream().map(Case::name).distinct().count());
    assertEquals(cases.size(), cases.stream().map(Case::file).distinct().count());
  }

  /** A practice cannot mend the default's file, so no fault may point there. */
  @Test
  void noFaultPointsIntoTheDefault() throws IOException {
    for (Case one : cases()) {
      assertTrue(one.messages().lines().allMatch(line -> line.startsWith("practice.json:")));
    }
  }

  private static String messages(String file) {
    return assertThrows(
            InvalidDocumentException.class, () -> PracticeReader.read("practice.json", file))
        .getMessage();
  }

  private static List<Case> cases() throws IOException {
    try (InputStream in = BrokenPracticesTest.class.getResourceAsStream("broken-practices.txt")) {
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      List<Case> cases = new ArrayList<>();
      for (String block : text.split("(?m)^=== ")) {
        if (!block.isEmpty()) {
          String[] parts = block.split("\n---\n");
          int nameEnd = parts[0].indexOf('\n');
          cases.add(
              new Case(
                  parts[0].substring(0, nameEnd),
                  parts[0].substring(nameEnd + 1),
                  parts[1].strip()));
        }
      }
      return cases;
    }
  }
}
