package quadrille.facts.practice;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Alert;

final class PracticeReaderTest {

  private static final String SCHEMA = "\"schema\": \"quadrille/practice/1\"";

  private static Practice read(String members) throws InvalidDocumentException {
    return PracticeReader.read("practice.json", "{ " + SCHEMA + ", " + members + " }");
  }

  @Test
  void theDefaultIsWrittenAsItStandsInItsFile() {
    assertEquals(PracticeWriter.defaultText(), PracticeWriter.text(PracticeReader.defaults()));
  }

  @Test
  void theDefaultReadAsAPracticeFileIsTheDefault() throws InvalidDocumentException {
    assertEquals(
        PracticeReader.defaults(),
        PracticeReader.read("practice.json", PracticeWriter.defaultText()));
  }

  @Test
  void aFileWithNothingButItsSchemaChangesTheNameOnly() throws InvalidDocumentException {
    Practice practice = PracticeReader.read("practice.json", "{ " + SCHEMA + " }");
    assertEquals("default practice, changed", practice.name());
    assertEquals(PracticeReader.defaults().inserts(), practice.inserts());
    assertEquals(PracticeReader.defaults().minutes(), practice.minutes());
  }

  @Test
  void aBareNumberIsThePracticesOwn() throws InvalidDocumentException {
    Practice practice = read("\"minutes\": { \"tipChangeSeconds\": 45 }");
    assertEquals(new Figure(45, "the practice's own"), practice.minutes().tipChangeSeconds());
    assertEquals(
        PracticeReader.defaults().minutes().closeMinutes(), practice.minutes().closeMinutes());
  }

  @Test
  void aChangedValueDoesNotKeepTheOldSource() throws InvalidDocumentException {
    Practice practice = read("\"minutes\": { \"spreadSigma\": { \"value\": 0.3 } }");
    assertEquals(new Figure(0.3, "the practice's own"), practice.minutes().spreadSigma());
  }

  @Test
  void aSourceMayBeGivenWithTheValueOrAlone() throws InvalidDocumentException {
    Practice practice =
        read(
            """
            "minutes": {
              "spreadSigma": { "value": 0.3, "source": "our records of 2025" },
              "closeMinutes": { "source": "confirmed by us" }
            }
            """);
    assertEquals(new Figure(0.3, "our records of 2025"), practice.minutes().spreadSigma());
    assertEquals(new Figure(3, "confirmed by us"), practice.minutes().closeMinutes());
  }

  @Test
  void aChangedInsertSaysSoInItsSource() throws InvalidDocumentException {
    Practice practice = read("\"inserts\": { \"slim straight\": { \"sterileSets\": 9 } }");
    Insert insert = practice.inserts().get("slim straight");
    assertEquals(9, insert.sterileSets());
    assertEquals(Shank.STRAIGHT, insert.shank());
    assertTrue(
        insert.source().startsWith("the practice's own, changed from: review article"),
        insert.source());
  }

  @Test
  void nullRemovesAnInsertAndTheRestKeepsItsOrder() throws InvalidDocumentException {
    Practice practice = read("\"inserts\": { \"broad flat\": null }");
    assertEquals(
        List.of(
            "standard straight",
            "standard bent",
            "standard bent for line angles",
            "slim straight",
            "slim curved right",
            "slim curved left",
            "finest straight",
            "sleeved for implants",
            "hand instruments",
            "hand instruments for implants"),
        List.copyOf(practice.inserts().keySet()));
  }

  @Test
  void aRemovedAgentIsNoLongerPreferred() throws InvalidDocumentException {
    Practice practice = read("\"agents\": { \"lidocaine-2-100\": null }");
    assertFalse(practice.agents().containsKey("lidocaine-2-100"));
    assertEquals("articaine-4-100", practice.preferredAgents().get(0));
  }

  @Test
  void nullTakesACapAway() throws InvalidDocumentException {
    Practice practice = read("\"alerts\": { \"pregnancy\": { \"longestVisitMinutes\": null } }");
    assertEquals(null, practice.alerts().get(Alert.PREGNANCY).longestVisitMinutes());
    assertFalse(practice.alerts().get(Alert.PREGNANCY).cautions().isEmpty());
  }

  @Test
  void aNewInsertMayTakeThePlaceOfAnother() throws InvalidDocumentException {
    Practice practice =
        read(
            """
            "inserts": {
              "slim bent for line angles": {
                "class": "slim", "shank": "bent-for-line-angles", "passes": ["fine"],
                "powers": ["low", "medium", "high"]
              }
            },
            "selection": [
              { "name": "all fine", "scope": "area", "pass": "fine", "use": ["slim bent for line angles"],
                "power": "high", "because": "we like it" }
            ]
            """);
    assertEquals(Figure.OWN, practice.inserts().get("slim bent for line angles").source());
    assertEquals(1, practice.selection().size());
    assertEquals(Figure.OWN, practice.selection().get(0).source());
  }

  @Test
  void aChangedPracticeSurvivesBeingWritten() throws InvalidDocumentException {
    Practice practice =
        read(
            """
            "name": "a \\"small\\" practice",
            "contact": { "phone": "555 0100", "hours": "Monday to Friday, 8 to 17" },
            "inserts": { "broad flat": null, "slim straight": { "sterileSets": 2 } },
            "agents": {
              "lidocaine-2-100": null,
              "articaine-4-100": { "limits": { "conservative": { "capMg": null } } }
            },
            "injections": {
              "nasopalatine": { "bothSides": false },
              "inferior alveolar": { "pulpOnsetMinutes": null, "ml": 1.8 }
            },
            "gel": { "owned": true },
            "alerts": { "heart-disease": { "forbids": [], "epinephrineCapMg": null } },
            "weights": { "balance": 0 },
            "codeHint": { "shown": true, "quadrantsDay": 1 }
            """);
    assertEquals(practice, PracticeReader.read("written.json", PracticeWriter.text(practice)));
  }

  @Test
  void theHintOnCodesIsOffUnlessSwitchedOn() throws InvalidDocumentException {
    assertFalse(PracticeReader.defaults().codeHint().shown());
    CodeHint hint = read("\"codeHint\": { \"shown\": true }").codeHint();
    assertTrue(hint.shown());
    assertEquals(4, hint.fullQuadrantTeeth().asInt());
    assertEquals(2, hint.quadrantsDay().asInt());
  }

  @Test
  void everyNumberOfTheDefaultCarriesASource() {
    List<PracticeFigures.Entry> figures = PracticeFigures.of(PracticeReader.defaults());
    assertTrue(figures.size() > 150, "only " + figures.size());
    for (PracticeFigures.Entry entry : figures) {
      String source = entry.figure().source();
      boolean says =
          source.matches(".*\\b(1|2)[0-9]{3}\\b.*")
              || List.of(
                      "assumption",
                      "from memory",
                      "common practice, no source",
                      "weak",
                      "product label",
                      "Malamed",
                      "national reference table",
                      "by definition",
                      "no epinephrine in it",
                      "publication not recorded")
                  .stream()
                  .anyMatch(source::contains);
      assertTrue(says, entry.pointer() + ": " + source);
    }
  }
}
