package quadrille.facts.practice;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.document.InvalidDocumentException;

/** Holds docs/practice.md against what the reader does. */
final class PracticeDocumentTest {

  private static String document() throws IOException {
    return Files.readString(Path.of("..", "docs", "practice.md"));
  }

  @Test
  void theExampleDoesWhatItSays() throws IOException, InvalidDocumentException {
    String example = document().split("```json\n")[1].split("```")[0];
    Practice practice = PracticeReader.read("practice.json", example);
    assertEquals("Our practice", practice.name());
    assertEquals(60, practice.appointments().longestVisitMinutes().asInt());
    assertEquals(new Figure(45, Figure.OWN), practice.minutes().tipChangeSeconds());
    assertEquals("our 40 recorded visits of 2025", practice.minutes().spreadSigma().source());
    assertFalse(practice.inserts().containsKey("broad flat"));
    assertEquals(6, practice.inserts().get("slim straight").sterileSets());
    assertEquals(2, practice.inserts().get("slim bent for line angles").sterileSets());
    assertEquals(List.of("articaine-4-200", "mepivacaine-3"), practice.preferredAgents());
    assertTrue(practice.gel().owned());
  }

  @Test
  void everyKeyOfTheFileIsExplained() throws IOException {
    String document = document();
    new ObjectMapper()
        .readTree(PracticeWriter.defaultText())
        .fieldNames()
        .forEachRemaining(
            key ->
                assertTrue(
                    document.contains("`" + key + "`") || document.contains("\"" + key + "\""),
                    key));
  }

  @Test
  void theLengthIsAsSaid() throws IOException {
    assertTrue(document().contains("1,330 lines"));
    assertEquals(1330, PracticeWriter.defaultText().lines().count(), 25);
  }
}
