package quadrille.facts.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Observation;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.chart.Numbering;

final class ForeignChartTest {

  private static final FhirContext R4 = FhirContext.forR4();

  private static final String TABLE =
      """
      Case;Tooth;Side of tooth;Buccal Depth Distal;Depth mid-buccal;Depth mesiobuccal;BOP;Deposit;By
      K-7;46;x;6;4,0;7;Y;H;Ines
      K-7;45;x;3;;25;;L;Ines
      """;

  private static String mapping(String rest) {
    return "{ \"schema\": \"quadrille/mapping/1\", \"confirmed\": true, " + rest + " }";
  }

  private static List<String> faults(String mapping) {
    return assertThrows(InvalidDocumentException.class, () -> Mapping.read("m.json", mapping))
        .faults()
        .stream()
        .map(Fault::message)
        .toList();
  }

  @Test
  void aMappingIsProposedByPlainNamesAndTheRestIsLeftToAPerson() throws Exception {
    Mapping proposed = ForeignCharts.proposed("t.csv", TABLE);
    assertFalse(proposed.confirmed());
    assertEquals(Numbering.ISO3950, proposed.numbering());
    assertEquals(
        Meaning.of("depth facial distal").orElseThrow(), column(proposed, "Buccal Depth Distal"));
    assertEquals(
        Meaning.of("depth facial middle").orElseThrow(), column(proposed, "Depth mid-buccal"));
    assertEquals(
        Meaning.of("depth facial mesial").orElseThrow(), column(proposed, "Depth mesiobuccal"));
    assertEquals(Meaning.of("bleeding").orElseThrow(), column(proposed, "BOP"));
    assertNull(proposed.columns().get("By"));
    assertNull(proposed.columns().get("Side of tooth"));
    assertTrue(proposed.words().get(Meaning.What.DEPOSIT).containsKey("H"));
    List<String> faults = faults(proposed.text());
    assertTrue(faults.stream().anyMatch(fault -> fault.contains("confirmed")), faults.toString());
    assertTrue(faults.stream().anyMatch(fault -> fault.contains("\"?\"")), faults.toString());
  }

  private static Meaning column(Mapping mapping, String name) {
    Meaning meaning = mapping.columns().get(name);
    assertNotNull(meaning, name);
    return meaning;
  }

  @Test
  void whatTheMappingSaysIsTakenAndTheRestIsListedAndLeftOpen() throws Exception {
    Mapping mapping =
        Mapping.read(
            "m.json",
            mapping(
                """
                "numbering": "iso3950",
                "columns": { "Case": "case", "Tooth": "tooth", "Side of tooth": "ignore",
                  "Buccal Depth Distal": "depth facial distal", "Depth mid-buccal": "depth facial middle",
                  "Depth mesiobuccal": "depth facial mesial", "BOP": "bleeding facial distal",
                  "Deposit": "deposit", "By": "ignore" },
                "words": { "bleeding": { "Y": "true" }, "deposit": { "H": "heavy" } }
                """));
    ForeignChart chart = ForeignCharts.read("t.csv", TABLE, mapping);
    assertNull(chart.chart());
    assertTrue(chart.lines().contains("46 heavy | 6b 4 7 | ? ? ?"), chart.lines());
    assertTrue(chart.lines().contains("45 ? | 3 ? ? | ? ? ?"), chart.lines());
    assertTrue(chart.lines().contains("case K-7"), chart.lines());
    assertTrue(
        chart
            .notes()
            .contains(
                "Line 3: deposit \"L\" was left open; a chart takes none, light, moderate or heavy."),
        chart.notes().toString());
    assertTrue(chart.notes().stream().anyMatch(note -> note.contains("\"25\" was left open")));
    assertTrue(chart.notes().contains("Nothing says recession; the chart has none."));
    Mapping other =
        new Mapping(
            true,
            Numbering.ISO3950,
            java.util.Map.of(),
            java.util.Map.of(),
            java.util.Map.of(),
            java.util.Map.of());
    assertThrows(InvalidDocumentException.class, () -> ForeignCharts.read("t.csv", TABLE, other));
  }

  @Test
  void aRowASiteIsReadAndASideSeenFromTheFrontIsTheRightSite() throws Exception {
    Mapping mapping =
        Mapping.read(
            "m.json",
            mapping(
                """
                "numbering": "universal",
                "columns": { "t": "tooth", "a": "aspect", "s": "site", "d": "depth", "r": "recession",
                  "b": "bleeding", "g": "deposit", "c": "case", "h": "alerts", "f": "furcation" },
                "words": { "site": { "L": "left", "M": "middle", "R": "right" }, "aspect": { "F": "facial", "P": "lingual" },
                  "depth": { "": "-" }, "alerts": { "0": "none" } }
                """));
    StringBuilder table = new StringBuilder("t,a,s,d,r,b,g,c,h,f\n");
    for (String tooth : List.of("3", "14")) {
      for (String aspect : List.of("F", "P")) {
        table.append(tooth + "," + aspect + ",L,1,2,1,heavy,K,0,1\n");
        table.append(tooth + "," + aspect + ",M,,0,0,,,,\n");
        table.append(tooth + "," + aspect + ",R,3,0,0,,,,\n");
      }
    }
    ForeignChart read = ForeignCharts.read("t.csv", table.toString(), mapping);
    Chart chart = read.chart();
    assertNotNull(chart, read.lines());
    assertTrue(read.lines().contains("3 heavy f1 | 1b/2 - 3 | 1b/2 - 3"), read.lines());
    assertTrue(read.lines().contains("14 heavy f1 | 3 - 1b/2 | 3 - 1b/2"), read.lines());
    assertTrue(chart.patient().history().taken() && !chart.patient().has(Alert.DIABETES));
  }

  @Test
  void whatIsSaidTwiceAndOtherwiseIsLeftOpen() throws Exception {
    Mapping mapping =
        Mapping.read(
            "m.json",
            mapping(
                "\"numbering\": \"iso3950\", \"columns\": { \"t\": \"tooth\", \"d\": \"depth facial middle\" }"));
    ForeignChart read = ForeignCharts.read("t.csv", "t,d\n11,3\n11,4\n11,3\n99,1\n", mapping);
    assertTrue(read.lines().contains("11 ? | ? ? ? | ? ? ?"), read.lines());
    assertTrue(read.notes().get(0).contains("one by either numbering"), read.notes().toString());
    assertTrue(
        read.notes().get(1).startsWith("Line 3: said a second time"), read.notes().toString());
    assertTrue(read.notes().stream().anyMatch(note -> note.contains("\"99\" is no tooth")));
  }

  private static final String COLUMNS =
      """
      "columns": { "t": "tooth", "n": "tooth", "c": "case", "y": "charted", "a": "aspect", "d": "depth middle",
        "f": "depth facial mesial", "r": "recession facial middle", "b": "bleeding facial middle",
        "g": "deposit", "s": "status", "u": "furcation", "v": "features" }
      """;

  private static ForeignChart read(String numbering, String table) throws Exception {
    return ForeignCharts.read(
        "t.csv",
        table,
        Mapping.read("m.json", mapping("\"numbering\": \"" + numbering + "\", " + COLUMNS)));
  }

  /** Each table's teeth belong to the numbering that stands first. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "universal iso3950 3 14 19",
        "universal iso3950 11 12 9",
        "universal iso3950 31 32 29.0",
        "iso3950 universal 11 21 48",
        "iso3950 universal 17 33"
      })
  void teethOfTheOtherNumberingAreNeverReadByThisOne(String line) throws Exception {
    List<String> words = List.of(line.split(" "));
    String table = "t,g\n" + String.join(",none\n", words.subList(2, words.size())) + ",none\n";
    assertEquals(words.get(0), numbering(table));
    assertNotNull(read(words.get(0), table));
    InvalidDocumentException refused =
        assertThrows(InvalidDocumentException.class, () -> read(words.get(1), table));
    assertTrue(refused.getMessage().contains("a tooth of another numbering"), refused.getMessage());
  }

  private static String numbering(String table) throws Exception {
    Numbering numbering =
        ForeignCharts.proposed("t.csv", table.replace("t,g", "Tooth,g")).numbering();
    return numbering == null ? "?" : numbering.word();
  }

  @Test
  void whereTheTeethDoNotTellTheirNumberingNobodyGuesses() throws Exception {
    String table = "t,g\n11,none\n28,none\n";
    assertEquals("?", numbering(table));
    assertTrue(
        read("universal", table)
            .notes()
            .get(0)
            .endsWith("read as universal, as the mapping says."));
    assertEquals("?", numbering("t,g\n3,none\n48,none\n"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "t,n,d\n11,8,3\n",
        "c,d\nx,3\n",
        "t,c,g\n46,A,none\n47,B,none\n",
        "t,y,g\n46,2026-03-02,none\n47,2026-04-02,none\n"
      })
  void aTableOfTwoMouthsDaysOrColumnsOfTeethIsRefused(String table) {
    assertThrows(InvalidDocumentException.class, () -> read("iso3950", table));
  }

  /** What a chart does not take is a question mark, not the harmless answer. */
  @ParameterizedTest
  @ValueSource(strings = {"r,deep", "b,Y", "s,crown", "u,II", "v,odd", "g,much"})
  void whatAChartDoesNotTakeIsNotTakenForNone(String what) throws Exception {
    String[] of = what.split(",");
    StringBuilder table = new StringBuilder("t,a,d,f,g,s,u,v,r,b\n");
    String row = "46,facial,3,3,g,s,u,v,r,b\n".replace("," + of[0], "," + of[1]);
    table.append(
        row.replace(",s", ",natural").replace(",g", ",none").replaceAll(",[guvrb](?=[,\n])", ","));
    ForeignChart read = read("iso3950", table.toString());
    String line = read.lines().lines().filter(one -> one.startsWith("46")).findFirst().orElse("");
    assertTrue(
        of[0].equals("r") || of[0].equals("b")
            ? line.contains("| ? ? 3 |")
            : line.split("\\|", -1)[0].contains("?"),
        line);
    assertTrue(
        read.notes().stream().anyMatch(note -> note.contains("\"" + of[1] + "\" was left open")),
        read.notes().toString());
  }

  @Test
  void aRowThatContradictsItsColumnOrNamesNoToothIsListed() throws Exception {
    ForeignChart read = read("iso3950", "t,a,f\n46,lingual,4\n,facial,5\n");
    assertTrue(read.lines().contains("46 ? | ? ? ? | ? ? ?"), read.lines());
    assertTrue(read.notes().contains("Line 2: which site a depth is of is not said; left open."));
    assertTrue(
        read.notes().contains("Line 3: no tooth is named; what it says of one is passed over."));
  }

  @Test
  void whatANameLeavesOpenIsNotProposed() throws Exception {
    Mapping proposed =
        ForeignCharts.proposed("t.csv", "Tooth,Weight,Weight (kg),Site\n46,180,80,mesio-distal\n");
    assertNull(proposed.columns().get("Weight"));
    assertEquals(Meaning.of("weight").orElseThrow(), column(proposed, "Weight (kg)"));
    assertNull(proposed.words().get(Meaning.What.SITE).get("mesio-distal"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "\"columns\": { \"t\": \"tooth depth\" }",
        "\"columns\": { \"t\": \"deposit facial\" }",
        "\"columns\": { \"t\": \"?\" }",
        "\"numbering\": \"other\"",
        "\"words\": { \"tooth\": {} }",
        "\"codes\": [ { \"system\": \"s\", \"code\": \"c\" } ]",
        "\"toothSystems\": { \"s\": \"none\" }",
        "\"other\": 1"
      })
  void aMappingWithAFaultIsRefused(String rest) {
    assertFalse(faults(mapping(rest)).isEmpty());
  }

  // ---- FHIR

  private static String codes() {
    StringBuilder codes = new StringBuilder("\"codes\": [");
    for (String what :
        List.of(
            "depth",
            "recession",
            "bleeding",
            "deposit",
            "status",
            "furcation",
            "mobility",
            "features")) {
      codes.append(
          "{\"system\": \"urn:test\", \"code\": \"" + what + "\", \"means\": \"" + what + "\"},");
    }
    for (String aspect : List.of("facial", "lingual")) {
      for (String site : List.of("distal", "middle", "mesial")) {
        codes.append(
            "{\"system\": \"urn:test\", \"code\": \""
                + aspect
                + site
                + "\", \"means\": \""
                + aspect
                + " "
                + site
                + "\"},");
      }
    }
    return mapping(codes.substring(0, codes.length() - 1) + "]");
  }

  private static Chart demo(String name) throws IOException, InvalidDocumentException {
    return ChartReader.read(Path.of("../demo-data").resolve(name));
  }

  private static List<String> faultsOfBundle(String json) {
    ValidationSupportChain chain =
        new ValidationSupportChain(
            new DefaultProfileValidationSupport(R4),
            new CommonCodeSystemsTerminologyService(R4),
            new InMemoryTerminologyServerValidationSupport(R4));
    FhirInstanceValidator instance = new FhirInstanceValidator(chain);
    instance.setErrorForUnknownProfiles(false);
    FhirValidator validator = R4.newValidator().registerValidatorModule(instance);
    return validator.validateWithResult(json).getMessages().stream()
        .filter(one -> one.getSeverity().ordinal() >= ResultSeverityEnum.ERROR.ordinal())
        .map(one -> one.getLocationString() + ": " + one.getMessage())
        .toList();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "typical.json",
        "implants-both-sides.json",
        "universal-numbering.json",
        "unprobed.json"
      })
  void whatIsWrittenIsValidAndReadsBackTheSameTeeth(String name) throws Exception {
    Chart chart = demo(name);
    Mapping mapping = Mapping.read("m.json", codes());
    FhirFindings written = FhirFindings.of(chart, mapping);
    assertEquals(written, FhirFindings.of(chart, mapping));
    ForeignChart read = ForeignCharts.read("b.json", written.text(), mapping);
    ForeignChart again = read;
    if (name.equals("unprobed.json")) {
      assertNull(read.chart());
      again = new ForeignChart(read.lines().replace("?", "-"), read.notes());
    }
    Chart back = again.chart();
    assertNotNull(back, read.lines());
    assertEquals(chart.teeth(), back.teeth());
    assertEquals(chart.caseName(), back.caseName());
    assertEquals(chart.charted(), back.charted());
  }

  @Test
  void theReferenceImplementationFindsNoFaultInABundleAndTheProfilesRulesHold() throws Exception {
    Chart whole = demo("typical.json");
    Chart chart = whole.withTeeth(whole.teeth().subList(0, 3));
    String json = FhirFindings.of(chart, Mapping.read("m.json", codes())).text();
    assertEquals(List.of(), faultsOfBundle(json));
    assertFalse(faultsOfBundle(json.replace("\"final\"", "\"finished\"")).isEmpty());
    Bundle bundle = R4.newJsonParser().parseResource(Bundle.class, json);
    int observations = 0;
    for (Bundle.BundleEntryComponent entry : bundle.getEntry()) {
      if (entry.getResource() instanceof Observation observation) {
        observations++;
        assertEquals("dental", observation.getCategoryFirstRep().getCodingFirstRep().getCode());
        assertTrue(observation.hasEffectiveDateTimeType() && observation.hasValue());
        assertTrue(observation.hasSubject() && observation.hasBodySite());
      }
    }
    assertTrue(observations >= 3 * 12, observations + " Observations");
  }

  @Test
  void whatHasNoCodeIsListedAndNotWritten() throws Exception {
    FhirFindings none =
        FhirFindings.of(demo("typical.json"), Mapping.read("m.json", mapping("\"codes\": []")));
    assertEquals("", none.text());
    assertTrue(none.notes().contains("No code means deposit; it is not written."));
    assertTrue(none.notes().contains("No code means depth facial distal; it is not written."));
  }

  @Test
  void otherCodesDaysStatesAndTeethArePassedOverAndListed() throws Exception {
    String one =
        """
        {"resource": {"resourceType": "Observation", "status": "STATUS",
          "category": [{"coding": [{"system": "http://hl7.org/fhir/us/dental-data-exchange/CodeSystem/dental-category", "code": "dental"}]}],
          "code": {"coding": [{"system": "urn:test", "code": "CODE"}]},
          "subject": {"reference": "Patient/P-1", "display": "A Name"},
          "effectiveDateTime": "DAYT10:00:00+01:00",
          "bodySite": {"coding": [{"system": "TEETH", "code": "16"}, {"system": "urn:test", "code": "facialdistal"}]},
          "valueQuantity": {"value": 5, "unit": "UNIT"}}}""";
    String good =
        one.replace("STATUS", "final")
            .replace("CODE", "depth")
            .replace("DAY", "2026-03-02")
            .replace("TEETH", "urn:iso:std:iso:3950")
            .replace("UNIT", "mm");
    String bundle =
        "{\"resourceType\": \"Bundle\", \"type\": \"collection\", \"entry\": ["
            + String.join(
                ",",
                good,
                good.replace("\"final\"", "\"entered-in-error\""),
                good.replace("\"depth\"", "\"other\""),
                good.replace("2026-03-02", "2025-01-01"),
                good.replace("urn:iso:std:iso:3950", "urn:elsewhere"),
                good.replace("\"final\"", "\"cancelled\"").replace("2026-03-02", "2027-01-01"),
                good.replace(
                    "{\"system\": \"urn:iso:std:iso:3950\"",
                    "{\"system\": \"urn:iso:std:iso:3950\", \"code\": \"26\"}, {\"system\": \"urn:iso:std:iso:3950\""),
                good.replace("facialdistal", "facialmiddle")
                    .replace("\"value\": 5", "\"comparator\": \"<\", \"value\": 4"),
                good.replaceFirst("\"valueQuantity.*", "\"valueString\": \" \"}}")
                    .replace("\"valueString\": \" \"", "\"interpretation\": []"),
                good.replace("facialdistal", "facialmesial").replace("\"mm\"", "\"cm\""))
            + "]}";
    ForeignChart read = ForeignCharts.read("b.json", bundle, Mapping.read("m.json", codes()));
    assertTrue(read.lines().contains("16 ? | 5 ? ? | ? ? ?"), read.lines());
    assertTrue(read.lines().contains("case P-1\n") && !read.lines().contains("Name"), read.lines());
    String notes = String.join("\n", read.notes());
    assertTrue(notes.contains("Code \"other\" of \"urn:test\" means nothing"), notes);
    assertTrue(notes.contains("2 Observations passed over: of a status other"), notes);
    assertTrue(notes.contains("1 Observation passed over: at more than one tooth"), notes);
    assertTrue(notes.contains("depth \"not exact\" was left open"), notes);
    assertTrue(notes.contains("1 Observation passed over: without a value"), notes);
    assertTrue(notes.contains("1 Observation passed over: of another day than 2026-03-02"), notes);
    assertTrue(notes.contains("1 Observation passed over: at no tooth"), notes);
    assertTrue(notes.contains("depth \"not in mm\" was left open"), notes);
    Mapping proposed = ForeignCharts.proposed("b.json", bundle);
    assertTrue(proposed.codes().containsKey(new Mapping.Code("urn:elsewhere", "16")));
    String two = bundle.replaceFirst("Patient/P-1", "Patient/P-2");
    assertThrows(
        InvalidDocumentException.class,
        () -> ForeignCharts.read("b.json", two, Mapping.read("m.json", codes())));
    for (String no : List.of("{}", "{\"resourceType\": \"Bundle\"}", "[]", "")) {
      assertThrows(
          InvalidDocumentException.class,
          () -> ForeignCharts.read("b.json", no, Mapping.read("m.json", codes())));
    }
  }

  @Test
  void aTableWithVeryManyFaultsIsReadInLittleRoom() throws Exception {
    Mapping mapping =
        Mapping.read(
            "m.json",
            mapping(
                "\"numbering\": \"iso3950\", \"columns\": { \"t\": \"tooth\", \"d\": \"depth facial middle\" }"));
    StringBuilder table = new StringBuilder("t,d\n");
    for (int i = 0; i < 50_000; i++) {
      table.append("11,x").append(i).append('\n');
    }
    ForeignChart read = ForeignCharts.read("t.csv", table.toString(), mapping);
    assertTrue(read.notes().size() < 210, read.notes().size() + " notes");
    assertTrue(read.notes().contains("49801 more of that kind."));
  }
}
