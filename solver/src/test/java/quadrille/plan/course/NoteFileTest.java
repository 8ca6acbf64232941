package quadrille.plan.course;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import quadrille.document.InvalidDocumentException;
import quadrille.document.PublishedSchema;
import quadrille.facts.chart.Numbering;
import quadrille.plan.work.WorkNote;

/** Cautions, assumptions and changes of every kind, through a plan file and back. */
final class NoteFileTest {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Course COURSE =
      new Course(
          "K-1",
          List.of(),
          7,
          14,
          6,
          12,
          new Cost(0, 0, Map.of()),
          List.of(),
          SampleNotes.assumptions(),
          SampleNotes.cautions());

  @ParameterizedTest
  @EnumSource
  void readBackAsTheyWere(Numbering numbering) throws Exception {
    PlanFile plan = PlanFile.of(COURSE, SampleNotes.changes());
    PlanFile read = PlanReader.read("p.json", PlanWriter.write(plan, numbering, SampleWords.WORDS));
    assertEquals(plan.course(), read.course());
    assertEquals(plan.changes(), read.changes());
  }

  /** What no sample is of would be written by no test. */
  @Test
  void aSampleOfEveryKindIsReadBack() {
    List<PlanChange> changes = SampleNotes.changes();
    assertEveryKind(Caution.class, SampleNotes.cautions());
    assertEveryKind(Assumption.class, SampleNotes.assumptions());
    assertEveryKind(PlanChange.What.class, changes.stream().map(PlanChange::what).toList());
    assertEveryKind(PlanChange.Why.class, changes.stream().map(PlanChange::why).toList());
    assertEveryKind(
        WorkNote.class,
        SampleNotes.cautions().stream()
            .filter(Caution.OfWork.class::isInstance)
            .map(caution -> ((Caution.OfWork) caution).note())
            .toList());
  }

  /** Whether some are of each kind that a sealed interface has. */
  static void assertEveryKind(Class<?> sealed, List<?> samples) {
    assertEquals(
        Set.of(sealed.getPermittedSubclasses()),
        samples.stream().map(Object::getClass).collect(Collectors.toSet()));
  }

  @ParameterizedTest
  @EnumSource
  void readBackWithoutWords(Numbering numbering) throws Exception {
    String facts = PlanWriter.writeFacts(COURSE, numbering);
    assertFalse(facts.contains("\"assumptions\"") || facts.contains("\"cautions\""), facts);
    assertEquals(COURSE, PlanReader.read("p.json", facts).course());
  }

  @Test
  void aCutSearchIsTold() throws Exception {
    Course cut = COURSE.withCutShort(true);
    String text = PlanWriter.write(cut, Numbering.ISO3950, SampleWords.WORDS);
    assertTrue(text.contains("\"assumptions\": [\n    \"cut short\""), text);
    assertEquals(cut, PlanReader.read("p.json", text).course());
    assertFalse(COURSE.cutShort());
  }

  /** The first files of version 2 had the facts where the words are now, with the words in them. */
  @ParameterizedTest
  @EnumSource
  void readBackFromTheFirstFilesOfVersionTwo(Numbering numbering) throws Exception {
    Course cut = COURSE.withCutShort(true);
    ObjectNode root =
        (ObjectNode) JSON.readTree(PlanWriter.write(cut, numbering, SampleWords.WORDS));
    for (String key : List.of("assumption", "caution")) {
      ArrayNode facts = (ArrayNode) root.remove(key + "Facts");
      ArrayNode words = (ArrayNode) root.get(key + "s");
      assertEquals(facts.size(), words.size(), key);
      for (int i = 0; i < facts.size(); i++) {
        JsonNode written = facts.get(i).get("asWritten");
        JsonNode said = written == null ? facts.get(i) : written;
        if (said instanceof ObjectNode one) {
          one.set("words", words.get(i));
        }
        words.set(i, said);
      }
    }
    assertEquals(cut, PlanReader.read("p.json", root.toString()).course());
    assertEquals(List.of(), new PublishedSchema("plan").errors(root.toString()));
  }

  @Test
  void wordsBesideFactsArePassedOver() throws Exception {
    String text = PlanWriter.write(COURSE, Numbering.ISO3950, SampleWords.WORDS);
    ObjectNode root = (ObjectNode) JSON.readTree(text);
    root.putArray("cautions").add("said otherwise");
    root.putArray("assumptions");
    assertEquals(COURSE, PlanReader.read("p.json", root.toString()).course());
    root.putArray("cautions").addObject().put("caution", "new-sleeve");
    assertThrows(InvalidDocumentException.class, () -> PlanReader.read("p.json", root.toString()));
    assertFalse(new PublishedSchema("plan").allows(root.toString()));
  }

  @Test
  void aKindThatIsNoneIsRefused() {
    String text =
        PlanWriter.writeFacts(COURSE, Numbering.ISO3950).replace("new-sleeve", "new-leaf");
    InvalidDocumentException refused =
        assertThrows(InvalidDocumentException.class, () -> PlanReader.read("p.json", text));
    assertEquals(1, refused.faults().size(), refused.faults().toString());
    assertEquals("\"new-leaf\"", refused.faults().get(0).found());
  }

  @Test
  void theSchemaKnowsThem() throws Exception {
    PublishedSchema schema = new PublishedSchema("plan");
    PlanFile plan = PlanFile.of(COURSE.withCutShort(true), SampleNotes.changes());
    for (String text :
        List.of(
            PlanWriter.write(plan, Numbering.UNIVERSAL, SampleWords.WORDS),
            PlanWriter.writeFacts(COURSE.withCutShort(true), Numbering.ISO3950))) {
      assertEquals(List.of(), schema.errors(text));
    }
  }
}
