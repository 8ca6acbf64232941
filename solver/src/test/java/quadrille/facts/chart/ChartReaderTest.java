package quadrille.facts.chart;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;
import quadrille.mouths.Tries;

final class ChartReaderTest {

  /** What the three documents below say. */
  private static final Chart CHART =
      new Chart(
          "K-1042",
          LocalDate.of(2026, 3, 2),
          Numbering.ISO3950,
          new Patient(54, 70.5, 90, EnumSet.of(Alert.DIABETES, Alert.ANXIOUS), Quadrant.UR, true),
          List.of(
              new ToothChart(
                  Tooth.ofIso(16),
                  ToothStatus.NATURAL,
                  Deposit.HEAVY,
                  2,
                  1,
                  EnumSet.of(Feature.CROWDED, Feature.SENSITIVE),
                  new AspectReading(
                      new Site(6, 1, true), new Site(null, 0, false), new Site(7, -1, true)),
                  new AspectReading(Site.ofDepth(5), Site.ofDepth(4), Site.ofDepth(6))),
              new ToothChart(
                  Tooth.ofIso(18), ToothStatus.MISSING, Deposit.NONE, 0, 0, Set.of(), null, null),
              new ToothChart(
                  Tooth.ofIso(38),
                  ToothStatus.PLANNED_EXTRACTION,
                  Deposit.NONE,
                  3,
                  0,
                  Set.of(),
                  AspectReading.even(9),
                  null),
              new ToothChart(
                  Tooth.ofIso(46),
                  ToothStatus.IMPLANT,
                  Deposit.LIGHT,
                  0,
                  0,
                  Set.of(),
                  AspectReading.even(3),
                  AspectReading.even(2))));

  private static final String LINES =
      """
      case K-1042   # no name of a person
      charted 2026-03-02 numbering iso3950
      start-with UR age 54\tweight 70.5 longest 90 wishes-numbness yes
      alerts anxious, diabetes
      46 light implant|3 3 3|2 2 2
      16 f2 heavy m1 sensitive crowded | 6b/1 - 7b/-1 | 5 4 6  # deep
      18 missing
      38 none planned-extraction f3 | 9 9 9 |
      """;

  private static final String JSON =
      """
      {
        "schema": "quadrille/chart/1",
        "case": "K-1042",
        "charted": "2026-03-02",
        "numbering": "iso3950",
        "patient": { "ageYears": 54, "weightKg": 70.5, "longestVisitMinutes": 90,
          "alerts": ["anxious", "diabetes"], "startWith": "UR", "wishesNumbness": true },
        "teeth": [
          { "tooth": "46", "status": "implant", "deposit": "light",
            "facial": { "depthMm": [3, 3, 3] }, "lingual": { "depthMm": [2, 2, 2] } },
          { "tooth": "16", "deposit": "heavy", "furcation": 2, "mobility": 1,
            "features": ["sensitive", "crowded"],
            "facial": { "depthMm": [6, null, 7], "recessionMm": [1, 0, -1],
              "bleeding": [true, false, true] },
            "lingual": { "depthMm": [5, 4, 6] } },
          { "tooth": "18", "status": "missing" },
          { "tooth": "38", "status": "planned-extraction", "furcation": 3,
            "facial": { "depthMm": [9, 9, 9] } }
        ]
      }
      """;

  private static final String CSV =
      """
      # case: K-1042
      # charted: 2026-03-02
      # numbering: iso3950
      # ageYears: 54
      # weightKg: 70.5
      # longestVisitMinutes: 90
      # alerts: anxious diabetes
      # startWith: UR
      # wishesNumbness: true

      aspect,tooth,status,deposit,furcation,mobility,features,depthDistal,depthMiddle,depthMesial,recessionDistal,recessionMesial,bleedingDistal,bleedingMesial
      facial,16,,heavy,,1,crowded sensitive,6,,7,1,-1,true,true
      facial,46,implant,light,,,,3,3,3,,,,
      lingual,46,implant,light,,,,2,2,2,,,,
      lingual,16,natural,,2,1,sensitive crowded,5,4,6,,,false,false
      ,18,missing,,,,,,,,,,,
      facial,38,planned-extraction,,3,,,9,9,9,,,,
      """;

  private static final String YAML =
      """
      schema: quadrille/chart/1
      case: K-1042          # our own reference
      charted: 2026-03-02
      numbering: iso3950
      patient:
        ageYears: 54
        weightKg: 70.5
        longestVisitMinutes: 90
        alerts: [anxious, diabetes]
        startWith: UR
        wishesNumbness: true
      teeth:
        - {tooth: "46", status: implant, deposit: light,
           facial: {depthMm: [3, 3, 3]}, lingual: {depthMm: [2, 2, 2]}}
        - tooth: "16"
          deposit: heavy
          furcation: 2
          mobility: 1
          features: [sensitive, crowded]
          facial: {depthMm: [6, null, 7], recessionMm: [1, 0, -1], bleeding: [true, false, true]}
          lingual: {depthMm: [5, 4, 6]}
        - {tooth: "18", status: missing}
        - {tooth: "38", status: planned-extraction, furcation: 3, facial: {depthMm: [9, 9, 9]}}
      """;

  @TempDir Path folder;

  @Test
  void jsonYamlAndCsvSayTheSame() throws Exception {
    assertEquals(CHART, ChartReader.json("chart.json", JSON));
    assertEquals(CHART, ChartReader.read("chart.yaml", YAML));
    assertEquals(CHART, ChartReader.csv("chart.csv", CSV));
  }

  @Test
  void theKindOfDocumentIsSeenFromItsNameOrItsStart() throws Exception {
    assertEquals(CHART, ChartReader.read("chart.JSON", JSON));
    assertEquals(CHART, ChartReader.read("chart.CSV", CSV));
    assertEquals(CHART, ChartReader.read("chart.yml", YAML));
    assertEquals(CHART, ChartReader.read("-", "\uFEFF\n " + JSON));
    assertEquals(CHART, ChartReader.read("-", CSV));
    assertEquals(CHART, ChartReader.read("-", "\uFEFF\n# called out by A\n" + LINES));
    assertEquals(CHART, ChartReader.read("MOUTH.TEETH", LINES));
    Path file = folder.resolve("chart.csv");
    Files.writeString(file, CSV);
    assertEquals(CHART, ChartReader.read(file));
  }

  @Test
  void aByteOrderMarkAndLineEndsOfAnotherSystemChangeNothing() throws Exception {
    assertEquals(CHART, ChartReader.json("chart.json", "\uFEFF" + JSON.replace("\n", "\r\n")));
    assertEquals(CHART, ChartReader.csv("chart.csv", "\uFEFF" + CSV.replace("\n", "\r\n")));
    assertEquals(CHART, ChartReader.csv("chart.csv", CSV.stripTrailing()));
  }

  @Test
  void faultsCountLinesByAnyLineEnd() {
    String broken = CSV.replace("6,,7,1", "6,,77,1").replace("\n", "\r\n");
    InvalidDocumentException invalid =
        assertThrows(
            InvalidDocumentException.class, () -> ChartReader.csv("chart.csv", "\uFEFF" + broken));
    assertEquals(
        "chart.csv:12 depthMesial (tooth 16, facial, mesial): found 77; allowed: a whole number"
            + " from 0 to 20, or blank",
        invalid.getMessage());
  }

  /** Spreadsheets fill every line up to the longest, quote where they like, and shout. */
  @Test
  void aTableThatWentThroughASpreadsheetIsTheSame() throws Exception {
    String filled =
        CSV.lines()
            .map(line -> line.startsWith("#") ? '"' + line + '"' + ",".repeat(13) : line)
            .map(line -> line.isEmpty() ? ",".repeat(13) : line)
            .map(line -> line.replace("facial,16", " \"facial\" ,\"16\""))
            .map(line -> line.replace("true,true", "TRUE,True,,"))
            .reduce("", (all, line) -> all + line + "\n");
    assertEquals(CHART, ChartReader.csv("chart.csv", filled + ",".repeat(13) + "\n\n"));
  }

  @Test
  void whatIsNotKnownOfThePatientStaysUnknown() throws Exception {
    String bare =
        """
        # case: K-1
        # numbering: universal
        # weightKg:
        tooth,aspect,deposit,depthDistal,depthMiddle,depthMesial
        3,facial,none,,,
        3,lingual,,1,1,1
        """;
    Chart chart = ChartReader.csv("chart.csv", bare);
    assertEquals(
        new Patient(null, null, null, History.UNKNOWN, null, false, List.of(), null),
        chart.patient());
    assertEquals(31, chart.unlisted().size());
    Site unprobed = new Site(null, 0, false);
    assertEquals(
        List.of(unprobed, unprobed, unprobed),
        chart.tooth(Tooth.ofIso(16)).orElseThrow().sites(Aspect.FACIAL));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "K-1042",
        "Ζωή 7",
        "病例 №9",
        "مريض ١",
        "🦷 16",
        "e\u0301",
        "\"quoted\", and \\",
        "a#b:c"
      })
  void aCaseMayHaveAnyScript(String name) throws Exception {
    Chart named =
        new Chart(name, CHART.charted(), CHART.numbering(), CHART.patient(), CHART.teeth());
    String json = ChartWriter.json(named);
    assertEquals(named, ChartReader.json("chart.json", json));
    Path file = folder.resolve("chart.json");
    Files.write(file, json.getBytes(UTF_8));
    assertEquals(named, ChartReader.read(file));
  }

  @Test
  void aCaseOf200CharactersIsLongEnough() throws Exception {
    for (String character : List.of("K", "🦷")) {
      String json = JSON.replace("K-1042", character.repeat(200));
      assertEquals(character.repeat(200), ChartReader.json("chart.json", json).caseName());
      assertEquals(1, faults("chart.json", JSON.replace("K-1042", character.repeat(201))).size());
    }
  }

  @Test
  void everyDocumentCutShortIsRefusedOrSaysLess() throws Exception {
    for (int end = 0; end < JSON.stripTrailing().length(); end++) {
      assertEquals(1, faults("chart.json", JSON.substring(0, end)).size());
    }
    // A table has no end mark: cut after a whole tooth it is a chart of fewer teeth, and check
    // names every tooth that is not listed. Cut anywhere else it must not pass.
    int lines = (int) CSV.lines().count();
    for (int end = 0; end < CSV.length(); end++) {
      String cut = CSV.substring(0, end);
      try {
        Chart less = ChartReader.csv("chart.csv", cut);
        assertTrue(
            CHART.teeth().containsAll(less.teeth()) || cut.lines().count() == lines,
            () -> "cut to " + cut);
      } catch (InvalidDocumentException refused) {
        assertTrue(refused.faults().size() >= 1);
      }
    }
  }

  /** Each of them is refused within seconds, and none exhausts the stack or the memory. */
  @Test
  void hostileDocumentsAreRefused() {
    int much = Tries.of(200_000, 1_000_000);
    List<String> documents =
        List.of(
            "[".repeat(10 * much),
            "{\"a\":".repeat(2 * much),
            "[" + "0,".repeat(5 * much) + "0]",
            "{\"teeth\":[" + "{},".repeat(3 * much) + "{}]}",
            "{\"teeth\":[" + "{\"tooth\":1},".repeat(50_000) + "{}]}",
            "{\"case\":\"" + "x".repeat(10 * much) + "\"}",
            "{\"" + "x".repeat(10 * much) + "\":1}",
            "9".repeat(10 * much),
            JSON.replace("54", "9".repeat(10 * much)),
            JSON.replace("54", "1e-" + "9".repeat(much)),
            JSON.replace("[3, 3, 3]", "[" + "\"heavi\",".repeat(much) + "0]"),
            JSON.replace("\"sensitive\"", "\"sensitiv\",".repeat(50_000) + "1"),
            "\u0000".repeat(much),
            "\uFEFF");
    for (String document : documents) {
      for (String source : List.of("chart.json", "chart.csv", "chart.yaml")) {
        Assertions.assertTimeout(
            Duration.ofSeconds(20),
            () -> {
              List<Fault> faults = faults(source, document);
              assertTrue(faults.size() >= 1 && faults.size() <= 1001);
              for (Fault fault : faults) {
                assertTrue(fault.message().length() < 1000, fault::message);
              }
            });
      }
    }
  }

  @Test
  void aLargeChartOfBlanksIsJustAChart() throws Exception {
    String blanks = " ".repeat(100).concat("\n").repeat(100_000);
    assertEquals(
        CHART, ChartReader.json("chart.json", JSON.replace("\"teeth\"", blanks + "\"teeth\"")));
    assertEquals(CHART, ChartReader.csv("chart.csv", CSV + blanks));
  }

  private static List<Fault> faults(String source, String text) {
    return assertThrows(InvalidDocumentException.class, () -> ChartReader.read(source, text))
        .faults();
  }
}
