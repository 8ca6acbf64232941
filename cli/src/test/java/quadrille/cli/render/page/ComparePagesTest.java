package quadrille.cli.render.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import quadrille.cli.render.CompareJson;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.scenario.Choice;
import quadrille.plan.scenario.Comparer;
import quadrille.plan.scenario.Comparison;
import quadrille.plan.scenario.WhatIf;
import quadrille.plan.staging.Effort;

/** Reads the comparison's page against what a program is told, number by number. */
final class ComparePagesTest {

  private static Comparison comparison;
  private static JsonNode json;
  private static String html;

  /** A small mouth: some numbers of visits are possible, one is not. */
  @BeforeAll
  static void compare() throws Exception {
    Sample sample = Sample.of("weight-missing");
    comparison = small(sample);
    json =
        new ObjectMapper().readTree(CompareJson.of(sample.chart(), sample.practice(), comparison));
    html = ComparePages.of(sample.chart(), sample.practice(), comparison);
  }

  static Comparison small(Sample sample) throws Exception {
    WhatIf shorter = new WhatIf(40, List.of(), null, null, false, false);
    return new Comparer(Effort.QUICK, 2)
        .compare(sample.chart(), sample.practice(), new VisitRange(1, 3), List.of(shorter));
  }

  private static List<JsonNode> choices() {
    List<JsonNode> choices = new ArrayList<>();
    json.get("groups").forEach(group -> group.get("choices").forEach(choices::add));
    json.get("rulesOfThumb").forEach(choices::add);
    return choices;
  }

  @Test
  void sampleHasBothPossibleAndImpossibleChoices() {
    assertTrue(choices().stream().anyMatch(choice -> choice.get("feasible").asBoolean()));
    assertTrue(choices().stream().anyMatch(choice -> !choice.get("feasible").asBoolean()));
    assertTrue(choices().stream().anyMatch(choice -> choice.get("unbeaten").asBoolean()));
  }

  @Test
  void tablesSayWhatTheJsonSays() {
    List<Dom> rows = Dom.of(html).all(Dom.ofClass("//table", "choices") + "/tbody/tr");
    List<JsonNode> choices = choices();
    assertEquals(choices.size(), rows.size());
    for (int i = 0; i < rows.size(); i++) {
      JsonNode choice = choices.get(i);
      List<String> cells = rows.get(i).cells();
      assertEquals(
          choice.get("unbeaten").asBoolean(), cells.get(1).endsWith(" unbeaten"), cells.get(1));
      if (!choice.get("feasible").asBoolean()) {
        assertEquals(3, cells.size());
        choice
            .get("obstacles")
            .forEach(why -> assertTrue(cells.get(2).contains(why.asText()), cells.get(2)));
        continue;
      }
      assertEquals(
          List.of(
              Long.toString(Math.round(choice.get("chairMinutes").asDouble())),
              choice.get("bookedMinutes").asText(),
              choice.get("longestMinutes").asText(),
              choice.get("tipChanges").asText(),
              choice.get("injections").asText(),
              choice.get("cartridges").asText(),
              percent(choice.get("largestDoseShare").asDouble()),
              percent(choice.get("overrunRisk").asDouble()),
              choice.get("spanDays").asText(),
              Long.toString(Math.round(choice.get("costSeconds").asDouble() / 60))),
          cells.subList(2, 12));
    }
  }

  @Test
  void barsAreAsHighAsTheirMinutes() {
    List<Dom> charts = Dom.of(html).all(Dom.ofClass("//*", "visit-counts"));
    assertEquals(json.get("groups").size(), charts.size());
    for (int i = 0; i < charts.size(); i++) {
      double scale = charts.get(i).number("data-units-per-minute");
      List<Dom> bars = charts.get(i).all(Dom.ofClass(".//*", "column"));
      int bar = 0;
      for (JsonNode choice : json.get("groups").get(i).get("choices")) {
        if (choice.get("feasible").asBoolean()) {
          assertEquals(
              choice.get("chairMinutes").asDouble(), height(bars.get(bar++)) / scale, 0.01);
          assertEquals(
              choice.get("longestMinutes").asDouble(), height(bars.get(bar++)) / scale, 0.01);
        }
      }
      assertEquals(bars.size(), bar);
    }
  }

  private static double height(Dom bar) {
    return bar.one(Dom.ofClass("*", "paper")).number("height");
  }

  @Test
  void frontShowsEveryPossibleChoiceOnceAndFillsWhatNothingBeats() {
    Dom page = Dom.of(html);
    List<String> keys = new ArrayList<>();
    for (Dom row : page.all(Dom.ofClass("//table", "choices") + "/tbody/tr")) {
      if (row.cells().size() > 3) {
        keys.add(row.cells().get(0));
      }
    }
    List<String> drawn = new ArrayList<>();
    for (Dom dot : page.all(Dom.ofClass("//*", "dot"))) {
      List<String> here = List.of(dot.attribute("data-keys").split(", "));
      drawn.addAll(here);
      boolean unbeaten =
          page.all(Dom.ofClass("//table", "choices") + "/tbody/tr[@class='unbeaten']").stream()
              .anyMatch(row -> here.contains(row.cells().get(0)));
      assertEquals(unbeaten, dot.attribute("class").equals("dot unbeaten"));
    }
    assertEquals(keys.stream().sorted().toList(), drawn.stream().sorted().toList());
  }

  /** Each line has the visits and the entries of its course, all to one scale. */
  @Test
  void linesAreToScale() {
    Dom page = Dom.of(html);
    double scale = page.one(Dom.ofClass("//*", "lines")).number("data-units-per-minute");
    List<Course> courses = new ArrayList<>();
    comparison.groups().stream()
        .flatMap(group -> group.choices().stream())
        .map(Choice::course)
        .filter(Objects::nonNull)
        .forEach(courses::add);
    comparison.rulesOfThumb().stream()
        .map(Choice::course)
        .filter(Objects::nonNull)
        .forEach(courses::add);
    List<Dom> lines = page.all(Dom.ofClass("//*", "line"));
    assertEquals(courses.size(), lines.size());
    for (int i = 0; i < lines.size(); i++) {
      List<Dom> visits = lines.get(i).all(Dom.ofClass(".//*", "stay"));
      assertEquals(courses.get(i).visits().size(), visits.size());
      for (int j = 0; j < visits.size(); j++) {
        Visit visit = courses.get(i).visits().get(j);
        Dom outline = visits.get(j).one(Dom.ofClass("*", "booked-time"));
        assertEquals(visit.bookedMinutes(), outline.number("width") / scale, 0.001);
        List<Dom> pieces = visits.get(j).all(Dom.ofClass("*", "piece"));
        assertEquals(visit.sequence().size(), pieces.size());
        for (int k = 0; k < pieces.size(); k++) {
          Entry entry = visit.sequence().get(k);
          assertEquals(entry.seconds() / 60.0, pieces.get(k).number("width") / scale, 0.001);
          assertEquals(
              entry.startSecond() / 60.0,
              (pieces.get(k).number("x") - outline.number("x")) / scale,
              0.001);
        }
      }
    }
  }

  @Test
  void pageIsSelfContainedAndAProposal() {
    Dom page = Dom.of(html);
    assertEquals(List.of(), page.all("//script | //link | //img | //*[@src] | //*[@href]"));
    assertTrue(page.one(Dom.ofClass("//p", "proposal")).text().contains("proposal"));
    for (Dom picture : page.all("//*[@role='img']")) {
      assertTrue(picture.attribute("aria-label").length() > 20);
    }
  }

  private static String percent(double share) {
    long percent = Math.round(100 * share);
    return percent == 0 && share > 0 ? "<1 %" : percent + " %";
  }
}
