package quadrille.plan.audit;

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
import java.util.function.Consumer;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.PlanFile;
import quadrille.plan.course.PlanReader;
import quadrille.plan.course.PlanWriter;
import quadrille.plan.course.SampleWords;
import quadrille.plan.work.StepAspect;

/**
 * Nothing in a plan file can be changed unnoticed: each value is changed, each element of a list
 * taken out or doubled, one at a time, and either the reader refuses the file or the audit finds
 * something. Free words, which nothing rests on, are named below.
 */
class TamperedPlanTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  /** Sentences for people, and what cannot be worked out again: bounds, and gaps that are kept. */
  private static final Pattern FREE =
      Pattern.compile(
          "/assumption(s|Facts).*|/caution(s|Facts).*|/heldBack/\\d+/(area|reason)|/cost/lowerBoundSeconds"
              + "|/visits/\\d+/(areas|watch|cautions|cautionFacts).*|/visits/\\d+/sequence/\\d+/(what|area)|/gapDays/m.*");

  private final Chart chart = new SmallChart().build();
  private final Practice practice = new SmallPractice().build();

  private String plan() {
    PlanBuilder plan = new PlanBuilder(chart, practice).worstLate(40);
    plan.visit()
        .inject("inferior alveolar", Quadrant.LR)
        .inject("long buccal", Quadrant.LR)
        .step("LR posterior", Pass.GROSS, StepAspect.FACIAL, 240)
        .step("LR posterior", Pass.GROSS, StepAspect.LINGUAL)
        .step("LR posterior", Pass.FINE, StepAspect.LINGUAL, 137)
        .step("LR posterior", Pass.FINE, StepAspect.FACIAL);
    plan.visit()
        .step("LL posterior", Pass.FINE, StepAspect.FACIAL)
        .step("LL posterior", Pass.FINE, StepAspect.LINGUAL)
        .step("UR anterior", Pass.FINE, StepAspect.LINGUAL)
        .step("UR anterior", Pass.FINE, StepAspect.FACIAL)
        .step("UR anterior", Pass.FINISHING, StepAspect.BOTH)
        .step("UL posterior", Pass.IMPLANT_CARE, StepAspect.BOTH);
    return PlanWriter.write(plan.course(), chart.numbering(), SampleWords.WORDS);
  }

  private record Change(String at, String text) {}

  @Test
  void nothingCanBeChangedUnnoticed() throws IOException {
    JsonNode root = JSON.readTree(plan());
    assertTrue(noticed(root.toString()).isEmpty(), "the plan itself is clean");
    List<Change> changes = new ArrayList<>();
    collect(root, root, "", changes);
    assertTrue(changes.size() > 500, "changes: " + changes.size());
    List<String> unnoticed = new ArrayList<>();
    for (Change change : changes) {
      if (!FREE.matcher(change.at()).matches() && noticed(change.text()).isEmpty()) {
        unnoticed.add(change.at());
      }
    }
    assertEquals(List.of(), unnoticed);
  }

  private List<String> noticed(String text) {
    PlanFile plan;
    try {
      plan = PlanReader.read("plan.json", text);
    } catch (InvalidDocumentException refused) {
      return List.of(refused.getMessage());
    }
    return Audit.audit(plan, chart, practice).stream().map(Finding::line).toList();
  }

  private static void collect(JsonNode root, JsonNode node, String at, List<Change> changes) {
    if (node instanceof ObjectNode object) {
      List<String> names = new ArrayList<>();
      object.fieldNames().forEachRemaining(names::add);
      for (String name : names) {
        JsonNode old = object.get(name);
        if (freeWords(object, name)) {
          continue;
        }
        String here = at + "/" + name;
        tamper(root, old, here, value -> object.set(name, value), changes);
        object.set(name, old);
        collect(root, old, here, changes);
      }
    } else if (node instanceof ArrayNode array) {
      for (int i = 0; i < array.size(); i++) {
        JsonNode old = array.get(i);
        int index = i;
        String here = at + "/" + i;
        tamper(root, old, here, value -> array.set(index, value), changes);
        array.remove(i);
        changes.add(new Change(here, root.toString()));
        array.insert(i, old.deepCopy());
        array.insert(i, old);
        changes.add(new Change(here, root.toString()));
        array.remove(i + 1);
        collect(root, old, here, changes);
      }
    }
  }

  /** Where to one moves, in words. */
  private static boolean freeWords(ObjectNode object, String name) {
    return object.path("do").asText().equals("reposition") && name.equals("to");
  }

  private static void tamper(
      JsonNode root, JsonNode old, String at, Consumer<JsonNode> set, List<Change> changes) {
    for (JsonNode value : others(old)) {
      set.accept(value);
      changes.add(new Change(at, root.toString()));
    }
    set.accept(old);
  }

  private static List<JsonNode> others(JsonNode old) {
    List<JsonNode> others = new ArrayList<>();
    if (old.isIntegralNumber()) {
      others.add(NODES.numberNode(old.asInt() + 1));
      others.add(NODES.numberNode(old.asInt() - 1));
      others.add(NODES.numberNode(old.asInt() + 60));
    } else if (old.isNumber()) {
      others.add(NODES.numberNode(old.asDouble() + 0.02));
      others.add(NODES.numberNode(old.asDouble() / 2));
      others.add(NODES.numberNode(old.asDouble() + 10));
    } else if (old.isBoolean()) {
      others.add(NODES.booleanNode(!old.asBoolean()));
    } else if (old.isTextual()) {
      for (String word :
          List.of(
              "left",
              "UL",
              "46",
              "44",
              "11",
              "facial",
              "lingual",
              "both",
              "gross",
              "fine",
              "finishing",
              "low",
              "high",
              "slim straight",
              "standard straight",
              "LR posterior",
              "UR anterior",
              "prilocaine-4",
              "greater palatine",
              "wait",
              "something else")) {
        if (!word.equals(old.asText())) {
          others.add(NODES.textNode(word));
        }
      }
    }
    return others;
  }
}
