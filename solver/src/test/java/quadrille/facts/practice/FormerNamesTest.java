package quadrille.facts.practice;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import quadrille.document.InvalidDocumentException;

/** Practice files written before the inserts got their present names. */
final class FormerNamesTest {

  private static Practice read(String members) throws InvalidDocumentException {
    return PracticeReader.read(
        "practice.json", "{\"schema\": \"quadrille/practice/1\", " + members + "}");
  }

  @Test
  void formerNamesMeanThePresentInserts() throws Exception {
    Practice former =
        read(
            """
            "inserts": {
              "standard triple-bend": null,
              "slim right-curved": { "sterileSets": 2 },
              "sleeved implant": { "class": "sleeved-implant", "sterileSets": 1 },
              "own": { "class": "ultra-thin", "shank": "left-curved", "passes": ["finishing"],
                       "powers": ["low"] }
            },
            "selection": [
              { "name": "all", "scope": "tooth", "pass": "fine", "use": ["slim left-curved"],
                "power": "low", "because": "a test" } ]
            """);
    Practice present =
        read(
            """
            "inserts": {
              "standard bent for line angles": null,
              "slim curved right": { "sterileSets": 2 },
              "sleeved for implants": { "class": "sleeved", "sterileSets": 1 },
              "own": { "class": "finest", "shank": "curved-left", "passes": ["finishing"],
                       "powers": ["low"] }
            },
            "selection": [
              { "name": "all", "scope": "tooth", "pass": "fine", "use": ["slim curved left"],
                "power": "low", "because": "a test" } ]
            """);
    assertEquals(present, former);
    assertFalse(former.inserts().containsKey("standard bent for line angles"));
    assertEquals(
        2,
        java.util.Objects.requireNonNull(former.inserts().get("slim curved right")).sterileSets());
  }

  /** A fault names the place as the file has it. */
  @Test
  void faultsNameWhatTheFileSays() {
    InvalidDocumentException faults =
        assertThrows(
            InvalidDocumentException.class,
            () -> read("\"inserts\": { \"slim right-curved\": { \"sterileSets\": 0 } }"));
    assertTrue(
        faults.getMessage().contains("/inserts/slim right-curved/sterileSets"),
        faults.getMessage());
  }
}
