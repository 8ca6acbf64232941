package quadrille.facts.practice;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;

/**
 * Spoils a few values of the default practice at random: the reader answers or says what is wrong.
 */
final class SpoiltPracticeProperties {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final List<String> JUNK =
      List.of(
          "null",
          "true",
          "0",
          "-1",
          "1.5",
          "7",
          "1e300",
          "\"\"",
          "\"low\"",
          "\"fine\"",
          "[]",
          "{}",
          "[[]]",
          "[1]",
          "{\"value\": 3}",
          "{\"a\": null}",
          "[\"slim straight\", \"x\"]");

  @Property(tries = 500, seed = "20260302")
  void theReaderNeverFails(@ForAll Random random) throws IOException {
    JsonNode root = JSON.readTree(PracticeWriter.defaultText());
    for (int i = 0; i <= random.nextInt(3); i++) {
      spoil(root, random);
    }
    try {
      assertNotNull(PracticeReader.read("spoilt.json", root.toString()));
    } catch (InvalidDocumentException invalid) {
      assertFalse(invalid.faults().isEmpty());
      for (Fault fault : invalid.faults()) {
        assertTrue(fault.place().startsWith("spoilt.json:1"), fault.message());
        assertFalse(fault.found().isBlank());
        assertFalse(fault.allowed().isBlank());
      }
    }
  }

  private static void spoil(JsonNode root, Random random) throws IOException {
    List<Runnable> places = new ArrayList<>();
    collect(root, JSON.readTree(JUNK.get(random.nextInt(JUNK.size()))), places);
    places.get(random.nextInt(places.size())).run();
  }

  private static void collect(JsonNode node, JsonNode junk, List<Runnable> places) {
    if (node instanceof ObjectNode object) {
      object
          .properties()
          .forEach(
              member -> {
                places.add(() -> object.set(member.getKey(), junk));
                places.add(() -> object.remove(member.getKey()));
                collect(member.getValue(), junk, places);
              });
    } else if (node instanceof ArrayNode array) {
      for (int i = 0; i < array.size(); i++) {
        int at = i;
        places.add(() -> array.set(at, junk));
        places.add(() -> array.remove(at));
        collect(array.get(i), junk, places);
      }
    }
  }
}
