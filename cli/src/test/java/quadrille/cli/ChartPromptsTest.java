package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a chart itself says is said as a prompt, with its source, and never as a diagnosis. */
final class ChartPromptsTest {

  private static final String MOUTH =
      """
      case K-1
      numbering iso3950
      age 54
      weight 70
      alerts none
      16 moderate f2 | 7b 4 5b/2 | 5 4 6
      17 planned-extraction
      46 implant light | 3 2 7b | 3 3 3
      """;

  @TempDir private Path folder;

  private String chart(String numbering) throws IOException {
    String text =
        numbering.equals("universal")
            ? MOUTH
                .replace("iso3950", "universal")
                .replace("\n16 ", "\n3 ")
                .replace("\n17 ", "\n2 ")
                .replace("\n46 ", "\n30 ")
            : MOUTH;
    return Files.writeString(folder.resolve(numbering + ".teeth"), text).toString();
  }

  private static String oneLine(String text) {
    return text.replaceAll("\\s+", " ");
  }

  @Test
  void signsAreNamedWithTheirTeethAndTheTableBesideThem() throws IOException {
    String text = Run.of("check", chart("iso3950")).done();
    Golden.checkWidth(text);
    String words = oneLine(text);
    for (String sentence :
        new String[] {
          "Prompts for a licensed clinician, never a diagnosis.",
          "between the teeth up to 7 mm (16): as in stage III or IV.",
          "Deepest site 7 mm (16): as in stage III or IV.",
          "Furcation 2 (16): as in stage III or IV.",
          "No mobility charted: points to no stage.",
          "1 natural tooth: as in stage IV.",
          "2018 classification: Tonetti, Greenwell, Kornman 2018, doi 10.1111/jcpe.12945.",
          "A grade needs bone loss in % over age",
          "Without evidence, begin at grade B: EFP S3 guideline",
          "Implant 46: 7 mm and bleeding. Take a radiograph",
          "2 sites of 6 mm or more (16). Refer where pockets of 6 mm or more remain",
          "Tooth 17 is planned for extraction, and the right side is worked on"
        }) {
      assertTrue(words.contains(sentence), sentence + "\n" + text);
    }
    assertFalse(words.contains("stage II "), text);
  }

  @Test
  void teethAreNamedByTheChartsNumbering() throws IOException {
    String words = oneLine(Run.of("check", chart("universal")).done());
    assertTrue(words.contains("Implant 30: 7 mm and bleeding"), words);
    assertTrue(words.contains("Tooth 2 is planned for extraction"), words);
    assertTrue(
        words.contains(
            "up to 7 mm (3): as in stage III or IV. One tooth only: the classification asks for two"
                + " that are not neighbours."),
        words);
  }

  @Test
  void jsonHasTheSameAsValues() throws IOException {
    JsonNode prompts =
        new ObjectMapper()
            .readTree(Run.of("check", "--format", "json", chart("iso3950")).done())
            .get("prompts");
    JsonNode loss = prompts.get("stageSigns").get(0);
    assertEquals("attachment-loss", loss.get("sign").asText());
    assertEquals(7, loss.get("value").asInt());
    assertEquals("[\"III\",\"IV\"]", loss.get("asInStages").toString());
    assertEquals("[\"16\"]", loss.get("teeth").toString());
    assertEquals(
        "[{\"tooth\":\"46\",\"deepestMm\":7}]", prompts.get("deepBleedingImplants").toString());
    assertEquals(2, prompts.at("/sitesFrom6Mm/sites").asInt());
    assertEquals("[\"17\"]", prompts.get("extractionsBesideWork").toString());
  }

  /** Two minutes of implant care are not all that such an implant asks for. */
  @Test
  void visitThatTreatsADeepImplantSaysSo() throws IOException {
    String words = oneLine(Run.of("plan", "--effort", "quick", chart("iso3950")).done());
    String caution = "Implant of 6 mm or more that bled: more than cleaning";
    assertTrue(words.indexOf(caution) > words.indexOf("VISIT 1"), words);
    assertTrue(words.indexOf(caution) < words.indexOf("Cautions for the whole course"), words);
    assertEquals(words.indexOf(caution), words.lastIndexOf(caution), words);
  }
}
