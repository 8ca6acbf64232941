package quadrille.cli.render.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;

/**
 * What is counted is read a second time from the chart's and the plan's JSON. The limits, four
 * teeth and two quadrants a day, are those of US payer bulletins.
 */
final class QuadrantHintTest {

  private static final List<String> QUADRANTS = List.of("UR", "UL", "LL", "LR");
  private static final String SHOWN = "\"codeHint\": { \"shown\": true }";

  private static String desk(Sample sample, Practice practice, Course course) {
    return PlanPages.of(
        sample.chart(), practice, course, EnumSet.of(PageKind.DESK), Language.english());
  }

  @Test
  void isLeftOutUnlessThePracticeSwitchedItOn() throws Exception {
    Sample sample = Sample.of("typical");
    assertNull(QuadrantHint.of(sample.course(), sample.chart(), sample.practice()));
    Dom page = Dom.of(desk(sample, sample.practice(), sample.course()));
    assertEquals(List.of(), page.all(Dom.ofClass("//div", "codes")));
    assertFalse(page.one("//main").text().contains("by quadrant"));
  }

  @Test
  void saysWhatItIsForAndDefersToOthers() throws Exception {
    Sample sample = Sample.of("typical");
    Practice practice = Sample.practiceOfItsOwn(SHOWN);
    String text =
        Dom.of(desk(sample, practice, sample.course())).one(Dom.ofClass("//div", "codes")).text();
    for (String words :
        List.of(
            "For scheduling only",
            "no reason to treat or not to treat",
            "local codes and the clinician’s own records decide",
            "natural teeth with a fine pass in this plan and a site of 4 mm or more")) {
      assertTrue(text.contains(words), text);
    }
    for (PageKind kind : List.of(PageKind.CHAIRSIDE, PageKind.PATIENT)) {
      String other =
          PlanPages.of(
              sample.chart(), practice, sample.course(), EnumSet.of(kind), Language.english());
      assertEquals(List.of(), Dom.of(other).all(Dom.ofClass("//div", "codes")), kind.word());
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"typical", "implants-both-sides", "unprobed", "weight-missing"})
  void countsTheTeethOfEachQuadrant(String name) throws Exception {
    Sample sample = Sample.of(name);
    Practice practice = Sample.practiceOfItsOwn(SHOWN);
    Dom page = Dom.of(desk(sample, practice, sample.course())).one(Dom.ofClass("//div", "codes"));
    SortedMap<Integer, SortedSet<String>> visits = counted(sample);
    List<List<String>> expected = new ArrayList<>();
    for (int quadrant = 1; quadrant <= 4; quadrant++) {
      List<String> names = new ArrayList<>();
      SortedSet<String> in = new TreeSet<>();
      for (Integer tooth : visits.keySet()) {
        if (tooth / 10 == quadrant) {
          names.add(tooth.toString());
          in.addAll(visits.get(tooth));
        }
      }
      if (!names.isEmpty()) {
        expected.add(
            List.of(
                QUADRANTS.get(quadrant - 1),
                Integer.toString(names.size()),
                names.size() >= 4 ? "4 teeth or more" : "1 to 3 teeth",
                String.join(", ", in),
                String.join(" ", names)));
      }
    }
    assertFalse(expected.isEmpty() && !page.text().contains("No tooth counts."));
    assertEquals(expected, page.all(".//tbody/tr").stream().map(Dom::cells).toList());
    assertEquals(
        !sample.json().get("heldBack").isEmpty(),
        page.text().contains("Work held back is not counted."));
  }

  /** By tooth, the visits of its fine pass; only natural teeth with a site of 4 mm, or unprobed. */
  private static SortedMap<Integer, SortedSet<String>> counted(Sample sample) throws Exception {
    SortedSet<Integer> deep = new TreeSet<>();
    JsonNode chart =
        new ObjectMapper().readTree(Path.of("../demo-data", sample.name() + ".json").toFile());
    for (JsonNode tooth : chart.get("teeth")) {
      for (String aspect : List.of("facial", "lingual")) {
        for (JsonNode depth : tooth.at("/" + aspect + "/depthMm")) {
          if (depth.isNull() || depth.asInt() >= 4) {
            deep.add(tooth.get("tooth").asInt());
          }
        }
      }
    }
    SortedMap<Integer, SortedSet<String>> visits = new TreeMap<>();
    for (JsonNode visit : sample.json().get("visits")) {
      for (JsonNode entry : visit.get("sequence")) {
        if (entry.path("pass").asText().equals("fine")) {
          for (JsonNode tooth : entry.get("teeth")) {
            if (deep.contains(tooth.asInt())) {
              visits
                  .computeIfAbsent(tooth.asInt(), t -> new TreeSet<>())
                  .add(visit.get("visit").asText());
            }
          }
        }
      }
    }
    return visits;
  }

  @Test
  void asksBeforeBookingMoreThanTwoQuadrantsOnADay() throws Exception {
    Sample sample = Sample.of("typical");
    Practice practice = Sample.practiceOfItsOwn(SHOWN);
    Course apart = sample.course();
    Course oneDay =
        new Course(
            apart.caseName(),
            apart.visits(),
            0,
            0,
            apart.reevaluateFromWeeks(),
            apart.reevaluateToWeeks(),
            apart.cost(),
            apart.heldBack(),
            apart.assumptions(),
            apart.cautions());
    String words = "payers often question more than 2 a day";
    assertTrue(
        QuadrantHint.of(oneDay, sample.chart(), practice)
            .prompts()
            .get(0)
            .startsWith(
                "All visits on one day would count 4 quadrants (UR, UL, LL, LR); " + words));
    Practice patient =
        Sample.practiceOfItsOwn("\"codeHint\": { \"shown\": true, \"quadrantsDay\": 4 }");
    assertFalse(
        QuadrantHint.of(oneDay, sample.chart(), patient).prompts().toString().contains("payers"));
  }

  @Test
  void tellsWhatIsUnsureAndWhatIsNotCounted() throws Exception {
    Sample sample = Sample.of("unprobed");
    Practice practice = Sample.practiceOfItsOwn(SHOWN);
    QuadrantHint hint = QuadrantHint.of(sample.course(), sample.chart(), practice);
    // By eye from the chart: 13 has no site of 4 mm and all its sites probed.
    assertTrue(
        hint.prompts()
            .contains(
                "Not counted, since no site is 4 mm deep (fine pass for deposit or bleeding): 13."),
        hint.prompts().toString());
    ObjectNode chart =
        (ObjectNode) new ObjectMapper().readTree(Path.of("../demo-data/unprobed.json").toFile());
    for (JsonNode tooth : chart.get("teeth")) {
      if (tooth.get("tooth").asText().equals("13")) {
        ((ArrayNode) tooth.at("/facial/depthMm")).setNull(1);
      }
    }
    Chart less = ChartReader.read("less.json", chart.toString());
    assertEquals(
        List.of("Counted for sites that could not be probed, so count again when they are: 13."),
        QuadrantHint.of(sample.course(), less, practice).prompts());
  }

  @Test
  void aPracticeMaySetItsOwnLimit() throws Exception {
    Sample sample = Sample.of("typical");
    Practice practice =
        Sample.practiceOfItsOwn("\"codeHint\": { \"shown\": true, \"fullQuadrantTeeth\": 8 }");
    QuadrantHint hint = QuadrantHint.of(sample.course(), sample.chart(), practice);
    hint.rows().forEach(row -> assertEquals("1 to 7 teeth", row.size()));
  }
}
