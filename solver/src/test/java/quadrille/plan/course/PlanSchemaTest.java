package quadrille.plan.course;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import quadrille.document.InvalidDocumentException;
import quadrille.document.PublishedSchema;
import quadrille.facts.chart.Numbering;

/**
 * Holds the published schema against writer and reader, by an independent implementation of JSON
 * Schema 2020-12.
 */
final class PlanSchemaTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  private static List<String> schemas() {
    return List.of("plan-1", "plan");
  }

  /** A valid plan. */
  private static String plan(String name) {
    return name.equals("plan-1")
        ? SampleCourses.file(1)
        : PlanWriter.write(SampleCourses.everything(), Numbering.ISO3950, SampleWords.WORDS);
  }

  @ParameterizedTest
  @MethodSource("schemas")
  void theSchemaIsAValidSchema(String name) {
    assertEquals(List.of(), new PublishedSchema(name).ownErrors());
  }

  @Test
  void whatIsWrittenIsValid() {
    PublishedSchema schema = new PublishedSchema("plan");
    assertEquals(List.of(), schema.errors(plan("plan")));
    assertEquals(
        List.of(),
        schema.errors(PlanWriter.writeFacts(SampleCourses.everything(), Numbering.UNIVERSAL)));
  }

  /** Every value of a plan, changed in turn to something else: schema and reader say the same. */
  @ParameterizedTest
  @MethodSource("schemas")
  void schemaAndReaderRefuseTheSame(String name) throws IOException {
    PublishedSchema form = new PublishedSchema(name);
    String text = plan(name);
    List<String> changed = changes(JSON.readTree(text));
    assertTrue(changed.size() > 2000, "changes: " + changed.size());
    int refused = 0;
    List<String> disputed = new ArrayList<>();
    for (String plan : changed) {
      boolean schema = form.allows(plan);
      boolean reader = read(plan);
      refused += reader ? 0 : 1;
      if (schema != reader) {
        disputed.add((schema ? "schema only: " : "reader only: ") + plan.substring(0, 120));
      }
    }
    assertEquals(List.of(), disputed);
    assertTrue(refused > 1000, "refused: " + refused);
  }

  private static boolean read(String plan) {
    try {
      PlanReader.read("plan.json", plan);
      return true;
    } catch (InvalidDocumentException refused) {
      return false;
    }
  }

  /**
   * What no schema can say is left out: an upper end below its lower one, and a tooth that
   * contradicts its neighbours.
   */
  private static List<String> changes(JsonNode root) {
    List<String> changed = new ArrayList<>();
    collect(root, root, "", changed);
    return changed;
  }

  private static void collect(JsonNode root, JsonNode node, String at, List<String> changed) {
    if (node instanceof ObjectNode object) {
      object.put("stray", 1);
      changed.add(root.toString());
      object.remove("stray");
      for (String key : names(object)) {
        JsonNode old = object.get(key);
        object.remove(key);
        changed.add(root.toString());
        for (JsonNode value : values(old)) {
          if (!beyondSchema(at + "/" + key, value)) {
            object.set(key, value);
            changed.add(root.toString());
          }
        }
        object.set(key, old);
        collect(root, old, at + "/" + key, changed);
      }
    } else if (node instanceof ArrayNode array) {
      array.add(NODES.nullNode());
      changed.add(root.toString());
      array.remove(array.size() - 1);
      for (int i = 0; i < array.size(); i++) {
        JsonNode old = array.get(i);
        for (JsonNode value : values(old)) {
          if (!beyondSchema(at + "/" + i, value)) {
            array.set(i, value);
            changed.add(root.toString());
          }
        }
        array.set(i, old);
        collect(root, old, at + "/" + i, changed);
      }
    }
  }

  private static boolean beyondSchema(String at, JsonNode value) {
    boolean range = at.matches("/(gapDays/(min|max)|reevaluateWeeks/(from|to))");
    boolean tooth = at.matches(".*/(tooth|teeth/\\d+|areaRefs?(/\\d+)?/(from|to))");
    return range && value.isNumber() || tooth && value.isTextual();
  }

  private static List<String> names(ObjectNode object) {
    List<String> names = new ArrayList<>();
    object.fieldNames().forEachRemaining(names::add);
    return names;
  }

  private static List<JsonNode> values(JsonNode old) {
    List<JsonNode> values = new ArrayList<>();
    values.add(NODES.nullNode());
    values.add(NODES.booleanNode(true));
    values.add(NODES.numberNode(-1));
    values.add(NODES.numberNode(0));
    values.add(NODES.numberNode(0.5));
    values.add(NODES.numberNode(3));
    values.add(NODES.numberNode(1e12));
    values.add(NODES.textNode(""));
    values.add(NODES.textNode("7"));
    values.add(NODES.textNode("left"));
    values.add(NODES.textNode("x".repeat(201)));
    values.add(NODES.textNode("x".repeat(2001)));
    values.add(NODES.arrayNode());
    values.add(NODES.arrayNode().add("x"));
    values.add(NODES.objectNode());
    values.add(NODES.arrayNode().add(old.deepCopy()));
    return values;
  }
}
