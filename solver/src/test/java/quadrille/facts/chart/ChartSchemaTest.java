package quadrille.facts.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import java.io.IOException;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.statistics.StatisticsReport;
import quadrille.document.InvalidDocumentException;
import quadrille.document.JsonChanges;
import quadrille.document.PublishedSchema;

/**
 * Holds the published schema against the reader, by an independent implementation of JSON Schema
 * 2020-12: whatever the schema can say, both must say.
 */
final class ChartSchemaTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final PublishedSchema SCHEMA = new PublishedSchema("chart");

  private static boolean allowedByReader(String json) {
    try {
      ChartReader.json("chart.json", json);
      return true;
    } catch (InvalidDocumentException refused) {
      return false;
    }
  }

  @Provide
  Arbitrary<Chart> charts() {
    return ChartArbitraries.charts();
  }

  @Example
  void theSchemaIsAValidSchema() {
    assertEquals(List.of(), SCHEMA.ownErrors());
  }

  @Property(tries = 50, seed = "20260304", edgeCases = EdgeCasesMode.NONE)
  void everyChartThatIsWrittenIsValid(@ForAll("charts") Chart chart) {
    assertTrue(SCHEMA.allows(ChartWriter.json(chart)));
  }

  @Example
  void brokenChartsAreRefusedWhereTheSchemaCanSaySo() {
    SCHEMA.assertJudges(BrokenChartsTest.cases(), 60);
  }

  /** Every whole number from below the lowest bound to above the highest, and some others. */
  @Example
  void bothDrawEveryBoundAlike() {
    List<String> numbers = new ArrayList<>();
    for (int number = -12; number <= 485; number++) {
      numbers.add(Integer.toString(number));
    }
    numbers.addAll(
        List.of("1.9", "2.0", "2.5", "19.5", "20.0", "20.5", "400.5", "1E+1", "1E+400", "null"));
    int allowed = 0;
    for (String place :
        List.of("AGE", "WEIGHT", "MINUTES", "FURCATION", "MOBILITY", "DEPTH", "GUM")) {
      for (String number : numbers) {
        allowed += judge(filled(Map.of(place, number))) ? 1 : 0;
      }
    }
    // Ages 0 to 120, weights 2 to 400, minutes 10 to 480, grades 0 to 3 twice, depths 0 to 20 and
    // null, recessions -10 to 20, each with what of "others" is another way to write one of them.
    assertEquals(
        (121 + 3) + (399 + 6) + (471 + 2) + (4 + 1) + (4 + 1) + (21 + 4) + (31 + 3), allowed);
  }

  @Example
  void bothKnowTheSameTeethAndFurcations() {
    int allowed = 0;
    for (String numbering : List.of("iso3950", "universal")) {
      for (String status : List.of("natural", "implant", "planned-extraction", "missing")) {
        for (String furcation : List.of("0", "1")) {
          for (int code = 0; code <= 99; code++) {
            Map<String, String> changes =
                Map.of(
                    "NUMBERING", numbering,
                    "STATUS", status,
                    "FURCATION", furcation,
                    "CODE", Integer.toString(code));
            allowed += judge(filled(changes)) ? 1 : 0;
          }
        }
      }
    }
    // In either numbering: 32 natural teeth, 14 of them with a furcation, 32 implants; the others
    // are no tooth to work on, and the missing one has readings.
    assertEquals(2 * (32 + 14 + 32), allowed);
  }

  @Example
  void bothLetAMissingToothSayNothing() {
    int allowed = 0;
    for (String more :
        List.of(
            "",
            ", \"deposit\": \"none\"",
            ", \"deposit\": \"light\"",
            ", \"furcation\": 0",
            ", \"furcation\": 1",
            ", \"mobility\": 0",
            ", \"mobility\": 1",
            ", \"features\": []",
            ", \"features\": [\"crowded\"]",
            ", \"facial\": {\"depthMm\": [1, 1, 1]}",
            ", \"lingual\": {\"depthMm\": [1, 1, 1]}")) {
      String missing = "{\"tooth\": \"36\", \"status\": \"missing\"" + more + "}, {\"tooth\"";
      allowed += judge(filled(Map.of()).replaceFirst("\\{\"tooth\"", missing)) ? 1 : 0;
    }
    assertEquals(5, allowed);
  }

  @Example
  void bothKnowTheSameWishes() {
    int allowed = 0;
    String here = "\"areas\": [{\"quadrant\": \"UR\", \"half\": \"posterior\"}]";
    for (String wish :
        List.of(
            "in-visit",
            "together",
            "apart",
            "first",
            "no-injection",
            "not-insert",
            "numb-first",
            "by-hand",
            "soon")) {
      for (String must : List.of("true", "false", "1")) {
        for (String more :
            List.of(
                "",
                ", " + here,
                ", \"areas\": []",
                ", \"areas\": [{\"quadrant\": \"XX\"}]",
                ", \"areas\": [{\"quadrant\": \"UR\", \"from\": \"16\", \"to\": \"16\"}]",
                ", \"areas\": [{\"quadrant\": \"UR\", \"half\": \"posterior\","
                    + " \"from\": \"16\", \"to\": \"16\"}]",
                ", \"insert\": \"slim straight\"",
                ", \"insert\": \" \"",
                ", " + here + ", \"visit\": 2",
                ", " + here + ", \"visit\": 13",
                ", " + here + ", \"visit\": 2, \"ofVisits\": 3",
                ", " + here + ", \"visit\": 2, \"other\": 3")) {
          String one = "{\"wish\": \"" + wish + "\", \"must\": " + must + more + "}";
          allowed +=
              judge(
                      filled(Map.of())
                          .replaceFirst("\"teeth\"", "\"wishes\": [" + one + "], \"teeth\""))
                  ? 1
                  : 0;
        }
      }
    }
    // Each must be true or false: two places of three kinds; two visits; an insert; nothing more,
    // of two.
    assertEquals(2 * (3 * 2 + 2 + 1 + 2), allowed);
  }

  /** The common verdict. */
  private static boolean judge(String json) {
    boolean allowed = allowedByReader(json);
    assertEquals(SCHEMA.allows(json), allowed, json);
    return allowed;
  }

  private static String filled(Map<String, String> changes) {
    String json =
        """
        {"schema": "quadrille/chart/1", "case": "K-1", "numbering": "NUMBERING",
         "patient": {"ageYears": AGE, "weightKg": WEIGHT, "longestVisitMinutes": MINUTES},
         "teeth": [
           {"tooth": "CODE", "status": "STATUS", "deposit": "none",
            "furcation": FURCATION, "mobility": MOBILITY,
            "facial": {"depthMm": [1, DEPTH, 1], "recessionMm": [0, 0, GUM]},
            "lingual": {"depthMm": [1, 1, 1]}}]}
        """;
    Map<String, String> valid =
        new TreeMap<>(
            Map.of(
                "NUMBERING", "iso3950",
                "AGE", "54",
                "WEIGHT", "70",
                "MINUTES", "90",
                "CODE", "16",
                "STATUS", "natural",
                "FURCATION", "0",
                "MOBILITY", "0",
                "DEPTH", "1",
                "GUM", "0"));
    valid.putAll(changes);
    for (Map.Entry<String, String> value : valid.entrySet()) {
      json = json.replace(value.getKey(), value.getValue());
    }
    return json;
  }

  /** A valid chart of a few teeth with one to three values changed, left out, added or copied. */
  @StatisticsReport(StatisticsReport.StatisticsReportMode.OFF)
  @Property(tries = 500, seed = "20260305", edgeCases = EdgeCasesMode.NONE)
  void bothJudgeAChangedChartAlike(
      @ForAll("charts") Chart chart, @ForAll("charts") Chart other, @ForAll long seed)
      throws IOException {
    Random random = new Random(seed);
    Chart few =
        new Chart(
            chart.caseName(),
            chart.charted(),
            chart.numbering(),
            // Whether something stands where a wish is about, the schema cannot say.
            chart.patient().withWishes(List.of()),
            chart.teeth().subList(0, Math.min(chart.teeth().size(), 1 + random.nextInt(3))));
    JsonNode root = JSON.readTree(ChartWriter.json(few));
    JsonNode donor =
        JSON.readTree(ChartWriter.json(other.withPatient(other.patient().withWishes(List.of()))));
    for (int change = random.nextInt(6) / 2; change >= 0; change--) {
      JsonChanges.change(root, donor, KEYS, value(random), random);
    }
    if (toothTwice(root)) {
      return;
    }
    boolean allowed = judge(JSON.writerWithDefaultPrettyPrinter().writeValueAsString(root));
    PublishedSchema.assertBothAreTried(allowed);
  }

  /** What the schema cannot say. */
  private static boolean toothTwice(JsonNode root) {
    Set<JsonNode> codes = new HashSet<>();
    for (JsonNode tooth : root.path("teeth")) {
      if (tooth.has("tooth") && !codes.add(tooth.get("tooth"))) {
        return true;
      }
    }
    return false;
  }

  private static final List<String> KEYS =
      List.of(
          "schema",
          "case",
          "charted",
          "numbering",
          "patient",
          "teeth",
          "ageYears",
          "weightKg",
          "longestVisitMinutes",
          "alerts",
          "startWith",
          "wishesNumbness",
          "tooth",
          "status",
          "deposit",
          "furcation",
          "mobility",
          "features",
          "facial",
          "lingual",
          "depthMm",
          "recessionMm",
          "bleeding",
          "other");

  private static JsonNode value(Random random) {
    List<JsonNode> values = values(random);
    return random.nextInt(3) == 0
        ? JsonNodeFactory.instance.numberNode(random.nextInt(40) - 12)
        : values.get(random.nextInt(values.size()));
  }

  private static List<JsonNode> values(Random random) {
    JsonNodeFactory make = JsonNodeFactory.instance;
    List<JsonNode> values = new ArrayList<>();
    for (String text :
        List.of(
            "",
            " ",
            "\u00a0",
            "a\nb",
            "K-1",
            "quadrille/chart/1",
            "iso3950",
            "universal",
            "2026-03-02",
            "2026-02-30",
            "2026-3-2",
            "20260302",
            "UR",
            "ur",
            "natural",
            "implant",
            "missing",
            "planned-extraction",
            "none",
            "light",
            "heavy",
            "Heavy",
            "crowded",
            "sensitive",
            "diabetes",
            "pregnancy",
            "16",
            "11",
            "1",
            "32",
            "33",
            "48",
            "49",
            "016",
            "51")) {
      values.add(make.textNode(text));
    }
    for (int number : List.of(-11, -10, -1, 0, 1, 2, 3, 4, 20, 21, 120, 121, 400, 480, 481)) {
      values.add(make.numberNode(number));
    }
    for (String number : List.of("0.5", "3.0", "1.999999", "2.5", "400.0001", "1E+2", "1E-7")) {
      values.add(make.numberNode(new BigDecimal(number)));
    }
    values.add(make.booleanNode(true));
    values.add(make.booleanNode(false));
    values.add(make.nullNode());
    values.add(make.objectNode());
    values.add(make.arrayNode());
    values.add(make.arrayNode().add(1).add(2).add(3));
    values.add(make.arrayNode().add("crowded").add("sensitive"));
    values.add(make.arrayNode().add(true).add(false).add(random.nextBoolean()));
    values.add(make.objectNode().set("depthMm", make.arrayNode().add(1).addNull().add(3)));
    return values;
  }
}
