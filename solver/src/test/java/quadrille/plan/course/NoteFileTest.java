package quadrille.plan.course;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Numbering;

/** Cautions, assumptions and changes of every kind, through a plan file and back. */
final class NoteFileTest {
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

  @ParameterizedTest
  @EnumSource
  void readBackWithoutWords(Numbering numbering) throws Exception {
    String facts = PlanWriter.writeFacts(COURSE, numbering);
    assertFalse(facts.contains("\"words\""), facts);
    assertEquals(COURSE, PlanReader.read("p.json", facts).course());
  }

  @Test
  void aCutSearchIsTold() throws Exception {
    Course cut = COURSE.withCutShort(true);
    String text = PlanWriter.write(cut, Numbering.ISO3950, SampleWords.WORDS);
    assertTrue(text.contains("\"words\": \"cut short\""), text);
    assertEquals(cut, PlanReader.read("p.json", text).course());
    assertFalse(COURSE.cutShort());
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
    Schema schema =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(Files.readString(Path.of("../docs/plan.schema.json")));
    PlanFile plan = PlanFile.of(COURSE.withCutShort(true), SampleNotes.changes());
    for (String text :
        List.of(
            PlanWriter.write(plan, Numbering.UNIVERSAL, SampleWords.WORDS),
            PlanWriter.writeFacts(COURSE.withCutShort(true), Numbering.ISO3950))) {
      assertEquals(List.of(), schema.validate(text, InputFormat.JSON));
    }
  }
}
