package quadrille.document;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.Consumer;
import java.util.function.Function;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

final class NodeTest {

  private static final List<String> COLOURS = List.of("red", "green", "blue");

  /** What the reading of one document finds wrong with it. */
  private static List<String> faults(String text, Consumer<Node> reading) {
    Faults faults = new Faults();
    try {
      reading.accept(JsonDocument.read("a.json", text, faults));
      faults.check();
      return List.of();
    } catch (InvalidDocumentException invalid) {
      return invalid.faults().stream().map(Fault::message).toList();
    }
  }

  @Test
  void valuesKnowTheirPlace() throws InvalidDocumentException {
    Node root =
        JsonDocument.read(
            "a.json",
            """
            {
              "teeth": [
                { "a/b~c": null }
              ]
            }
            """,
            new Faults());
    Node tooth = root.object("teeth").required("teeth").items().get(0);
    assertEquals("a.json:1", root.place().toString());
    assertEquals("a.json:3 /teeth/0", tooth.place().toString());
    assertEquals("a.json:3 /teeth/0/a~1b~0c", tooth.map().required("a/b~c").place().toString());
  }

  @Test
  void everyFaultComesToLightInDocumentOrder() {
    assertEquals(
        List.of(
            "a.json:2 /sise: found key \"sise\"; allowed: size, colour, on or part."
                + " Did you mean \"size\"?",
            "a.json:3 /colour: found \"gren\"; allowed: red, green or blue."
                + " Did you mean \"green\"?",
            "a.json:4 /on: found \"yes\"; allowed: true or false",
            "a.json:5 /part: found an array of 2; allowed: an array of 3",
            "a.json:5 /part/0: found 1.5; allowed: a whole number from 0 to 9",
            "a.json:5 /part/1: found \"7\"; allowed: a whole number from 0 to 9, without quotes",
            "a.json:6 /on: found key \"on\" a second time (first on line 4);"
                + " allowed: each key once"),
        faults(
            """
            {
              "sise": 3,
              "colour": "gren",
              "on": "yes",
              "part": [1.5, "7"],
              "on": true
            }
            """,
            root -> {
              Fields fields = root.object("size", "colour", "on", "part");
              fields.required("part").items(3, 3).forEach(item -> item.whole(0, 9));
              fields.required("on").truth();
              fields.required("colour").word(COLOURS, Function.identity());
              fields.required("size").whole(0, 9);
            }));
  }

  @Test
  void whatAFaultCoversIsNotReportedAgain() {
    assertEquals(
        List.of("a.json:1 /a: found 3; allowed: an object"),
        faults(
            "{\"a\": 3}",
            root -> {
              Fields inner = root.object("a").required("a").object("b");
              inner.required("b").object("c").required("c").whole(1, 2);
              assertTrue(inner.optional("b").isEmpty());
            }));
    assertEquals(
        List.of("a.json:1: found no \"a\"; allowed: an object"),
        faults("{}", root -> root.object("a").required("a").object("b").required("b").truth()));
  }

  @ParameterizedTest
  @ValueSource(strings = {"3", "3.0", "30e-1", "0.3e1", "3.000000000000000000000000000"})
  void aWholeNumberMayBeWrittenInManyWays(String written) {
    assertEquals(List.of(), faults(written, root -> assertEquals(3, root.whole(3, 3))));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "3.5",
        "-1",
        "21",
        "1e999999999",
        "1e-999999999",
        "1e99999999999999",
        "99999999999999999999"
      })
  void aNumberThatIsNoneOfTheAllowedIsAFault(String written) {
    assertEquals(
        List.of("a.json:1: found " + written + "; allowed: a whole number from 0 to 20"),
        faults(written, root -> assertEquals(0, root.whole(0, 20))));
  }

  @Test
  void decimalsKeepTheirBounds() {
    assertEquals(List.of(), faults("2.0", root -> assertEquals(2.0, root.number(2, 400))));
    assertEquals(
        List.of("a.json:1: found 1.9999999999999999999; allowed: a number from 2 to 400"),
        faults("1.9999999999999999999", root -> root.number(2, 400)));
  }

  @Test
  void aWordTwiceInAListIsAFault() {
    assertEquals(
        List.of(
            "a.json:1 /2: found \"red\" a second time; allowed: each word once",
            "a.json:1 /3: found 4; allowed: red, green or blue"),
        faults(
            "[\"red\", \"blue\", \"red\", 4]",
            root ->
                assertEquals(List.of("red", "blue"), root.words(COLOURS, Function.identity()))));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "2026-02-29|a day that exists, as 2026-03-02",
        "2.3.2026|a day as 2026-03-02",
        "2026-3-2|a day as 2026-03-02",
        "+12026-03-02|a day as 2026-03-02"
      })
  void daysAreWrittenOneWay(String written, String allowed) {
    assertEquals(
        List.of("a.json:1: found \"" + written + "\"; allowed: " + allowed),
        faults('"' + written + '"', Node::date));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", " ", "\\u00a0", "a\\nb", "\\ud800", "a\\u0000"})
  void aTextIsNotBlankAndHasNoControlCharacters(String escaped) {
    List<String> faults = faults('"' + escaped + '"', Node::text);
    assertEquals(1, faults.size());
    assertTrue(
        faults
            .get(0)
            .endsWith(
                "; allowed: a text of 1 to 200 characters, not blank, without control"
                    + " characters"));
    assertEquals(1, faults.get(0).lines().count());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "``|a.json:1: found an empty document; allowed: an object",
        "`{\"a\": NaN}`|a.json:1 column 10: found non-standard token 'NaN'; allowed: JSON",
        "`{\"a\": 1`|a.json:1 column 8: found unexpected end-of-input: expected close marker for"
            + " Object, opened on line 1; allowed: JSON",
        "`{\"a\": 1} 2`|a.json:1 column 10: found more after the end of the document;"
            + " allowed: one JSON value",
      })
  void whatIsNoJsonIsRefusedWithLineAndColumn(String text, String message) {
    assertEquals(List.of(message), faults(text, root -> {}));
  }

  @Test
  void aDocumentLaidOverAnotherKeepsBothPlaces() throws InvalidDocumentException {
    Faults faults = new Faults();
    Node lower = JsonDocument.read("all.json", "{\"a\": {\"b\": 1, \"c\": [2]}, \"d\": 3}", faults);
    Node upper = JsonDocument.read("own.json", "{\"a\":\n{\"c\": [7, 8], \"e\": 9}}", faults);
    Fields both = lower.overlaidBy(upper).object("a", "d");
    Fields a = both.required("a").object("b", "c");
    assertEquals(1, a.required("b").whole(0, 9));
    assertEquals(2, a.required("c").items().size());
    assertEquals(3, both.required("d").whole(0, 9));
    a.required("c").items().get(1).whole(0, 7);
    a.required("b").whole(2, 9);
    assertEquals(
        List.of(
            "own.json:2 /a/c/1: found 8; allowed: a whole number from 0 to 7",
            "own.json:2 /a/e: found key \"e\"; allowed: b or c",
            "all.json:1 /a/b: found 1; allowed: a whole number from 2 to 9"),
        faults.list().stream().map(Fault::message).toList());
  }

  @Test
  void nestingIsBounded() {
    assertEquals(
        List.of(
            "a.json:1 column 52: found a document too large or nested too deeply;"
                + " allowed: at most 3000000 values, nested at most 50 deep"),
        faults("[".repeat(1_000_000), root -> {}));
  }

  @Test
  void faultsWithoutEndAreCounted() {
    String zeros = "[" + "0,".repeat(5000) + "0]";
    List<String> faults = faults(zeros, root -> root.items().forEach(Node::truth));
    assertEquals(Faults.KEPT + 1, faults.size());
    assertEquals(
        "a.json: found 4001 more faults; allowed: the first ones mended",
        faults.get(faults.size() - 1));
  }

  @Test
  void anInvalidDocumentNeedsAFault() {
    assertThrows(IllegalArgumentException.class, () -> new InvalidDocumentException(List.of()));
  }
}
