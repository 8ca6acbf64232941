package quadrille.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ContainerNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import quadrille.reading.InvalidDocumentException;

/**
 * Holds the published schema against the reader, by an independent implementation of JSON Schema
 * 2020-12: whatever the schema can say, both must say.
 */
final class ChartSchemaTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Schema SCHEMA = schema();

  private static Schema schema() {
    try {
      return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
          .getSchema(Files.readString(Path.of("..", "docs", "chart.schema.json")));
    } catch (IOException unreadable) {
      throw new java.io.UncheckedIOException(unreadable);
    }
  }

  private static boolean allowedBySchema(String json) {
    return SCHEMA
        .validate(
            json,
            InputFormat.JSON,
            context -> context.executionConfig(config -> config.formatAssertionsEnabled(true)))
        .isEmpty();
  }

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
  void theSchemaIsAValidSchema() throws IOException {
    Schema dialect =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema("{\"$ref\": \"https://json-schema.org/draft/2020-12/schema\"}");
    String text = Files.readString(Path.of("..", "docs", "chart.schema.json"));
    assertEquals(List.of(), dialect.validate(text, InputFormat.JSON));
  }

  @Property(tries = 50, seed = "20260304", edgeCases = EdgeCasesMode.NONE)
  void everyChartThatIsWrittenIsValid(@ForAll("charts") Chart chart) {
    assertTrue(allowedBySchema(ChartWriter.json(chart)));
  }

  @Example
  void brokenChartsAreRefusedWhereTheSchemaCanSaySo() {
    int held = 0;
    for (BrokenCharts.Case broken : BrokenCharts.all()) {
      switch (broken.schema()) {
        case "refuses" -> assertTrue(!allowedBySchema(broken.text()), broken::title);
        case "cannot say" -> assertTrue(allowedBySchema(broken.text()), broken::title);
        default -> held--;
      }
      held++;
    }
    assertTrue(held >= 60, held + " cases");
  }

  /** A valid chart with one to three values changed, left out, added or copied. */
  @Property(tries = 600, seed = "20260305", edgeCases = EdgeCasesMode.NONE)
  void bothJudgeAChangedChartAlike(@ForAll("charts") Chart chart, @ForAll long seed)
      throws IOException {
    Random random = new Random(seed);
    JsonNode root = JSON.readTree(ChartWriter.json(chart));
    for (int change = random.nextInt(3); change >= 0; change--) {
      change(root, random);
    }
    if (toothTwice(root)) {
      return;
    }
    String json = JSON.writerWithDefaultPrettyPrinter().writeValueAsString(root);
    assertEquals(allowedBySchema(json), allowedByReader(json), json);
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

  private static void change(JsonNode root, Random random) {
    List<ContainerNode<?>> containers = new ArrayList<>();
    collect(root, containers);
    ContainerNode<?> container = containers.get(random.nextInt(containers.size()));
    List<JsonNode> values = values(random);
    JsonNode value = values.get(random.nextInt(values.size()));
    if (container instanceof ObjectNode object) {
      List<String> keys = new ArrayList<>();
      object.fieldNames().forEachRemaining(keys::add);
      keys.addAll(KEYS);
      String key = keys.get(random.nextInt(keys.size()));
      if (random.nextInt(4) == 0) {
        object.remove(key);
      } else {
        object.set(key, value);
      }
    } else if (container instanceof ArrayNode array) {
      switch (random.nextInt(array.isEmpty() ? 1 : 4)) {
        case 0 -> array.add(value);
        case 1 -> array.add(array.get(random.nextInt(array.size())).deepCopy());
        case 2 -> array.remove(random.nextInt(array.size()));
        default -> array.set(random.nextInt(array.size()), value);
      }
    }
  }

  private static void collect(JsonNode node, List<ContainerNode<?>> containers) {
    if (node instanceof ContainerNode<?> container) {
      containers.add(container);
      container.forEach(child -> collect(child, containers));
    }
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
