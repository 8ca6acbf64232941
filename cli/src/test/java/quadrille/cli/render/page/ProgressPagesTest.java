package quadrille.cli.render.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.cli.render.RecordJson;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseState;

/** Reads the pages of a course under way against what a program is told, and against the log. */
final class ProgressPagesTest {

  private static Dom progress(CourseLog log) {
    return Dom.of(ProgressSample.html(log, "en")).one("//section[@id='progress']");
  }

  private static JsonNode json(CourseLog log) throws Exception {
    return new ObjectMapper().readTree(RecordJson.of(log));
  }

  @ParameterizedTest
  @ValueSource(strings = {"fresh", "half", "restaged", "finished", "gel", "universal"})
  void visitsAreListedWithEachAreaAsFarAsItHasCome(String name) throws Exception {
    CourseLog log = ProgressSample.of(name);
    JsonNode json = json(log);
    Dom page = progress(log);
    List<JsonNode> visits = new ArrayList<>();
    json.get("done").forEach(visits::add);
    json.get("toCome").forEach(visits::add);
    List<Dom> rows = page.all(Dom.ofClass(".//table", "course-visits") + "/tbody/tr");
    assertEquals(visits.size(), rows.size());
    for (int i = 0; i < rows.size(); i++) {
      assertEquals(visits.get(i).get("visit").asText(), rows.get(i).attribute("data-visit"));
      boolean done = i < json.get("done").size();
      for (JsonNode area : visits.get(i).get("work")) {
        String extent = area.get("extent").asText();
        Dom line = rows.get(i).one(Dom.ofClass(".//p", extent.replace(' ', '-')));
        assertTrue(line.text().contains(area.get("area").asText()), line.text());
        String word = done ? extent : extent.equals("not done") ? "to do" : extent + " before";
        assertTrue(line.text().startsWith(word), line.text());
      }
      String day = rows.get(i).cells().get(3);
      assertTrue(
          done ? day.startsWith(visits.get(i).get("date").asText()) : day.equals("to come"), day);
    }
  }

  /** What was planned and what it took, to one scale, against the log's own numbers. */
  @ParameterizedTest
  @ValueSource(strings = {"fresh", "half", "restaged", "finished"})
  void stripsAreToScale(String name) throws Exception {
    CourseLog log = ProgressSample.of(name);
    CourseState state = CourseState.of(log);
    Dom page = progress(log);
    double width = page.one(Dom.ofClass(".//div", "time-strips")).number("data-minutes");
    for (CourseLog.Recorded one : state.recorded()) {
      Dom line = line(page, one.done().visit());
      List<Dom> strips = line.all("svg");
      strips.forEach(
          strip -> assertEquals("0 0 " + (int) width + " 20", strip.attribute("viewBox")));
      planned(strips.get(0), one.planned());
      double took =
          strips.get(1).all(Dom.ofClass("*", "took")).stream()
              .mapToDouble(part -> part.number("width"))
              .sum();
      assertEquals(one.done().minutes(), took, 1e-3);
      assertTrue(took <= width);
      assertEquals(
          one.done().bookedMinutes(),
          strips.get(1).one(Dom.ofClass("*", "booked-time")).number("width"));
      List<Dom> over = strips.get(1).all(Dom.ofClass("*", "over"));
      assertEquals(one.done().minutes() > one.done().bookedMinutes(), !over.isEmpty());
    }
    for (Visit visit : state.toCome()) {
      List<Dom> strips = line(page, visit.number()).all("svg");
      assertEquals(1, strips.size());
      planned(strips.get(0), visit);
    }
  }

  private static Dom line(Dom page, int visit) {
    return page.one(Dom.ofClass(".//div", "time-line") + "[@data-visit='" + visit + "']");
  }

  private static void planned(Dom strip, Visit visit) {
    List<Dom> pieces = strip.all(Dom.ofClass("*", "piece"));
    assertEquals(visit.sequence().size(), pieces.size());
    for (int i = 0; i < pieces.size(); i++) {
      assertEquals(visit.sequence().get(i).startSecond() / 60.0, pieces.get(i).number("x"), 1e-3);
      assertEquals(visit.sequence().get(i).seconds() / 60.0, pieces.get(i).number("width"), 1e-3);
    }
  }

  @Test
  void freshCourseHasEverythingToDo() throws Exception {
    Dom page = progress(ProgressSample.of("fresh"));
    String summary = page.one(Dom.ofClass(".//p", "summary")).text();
    assertTrue(summary.startsWith("No visit has taken place yet; 3 visits to come."), summary);
    assertTrue(summary.contains("0 % of the work is done"), summary);
    assertEquals(List.of(), page.all(Dom.ofClass(".//*", "band") + "[contains(@class, ' done')]"));
    assertEquals(List.of(), page.all(Dom.ofClass(".//table", "given")));
    assertEquals(List.of(), page.all(Dom.ofClass(".//ul", "corrections")));
  }

  @Test
  void finishedCourseHasNothingLeft() throws Exception {
    Dom page = progress(ProgressSample.of("finished"));
    String summary = page.one(Dom.ofClass(".//p", "summary")).text();
    assertTrue(summary.startsWith("3 of 3 visits took place."), summary);
    assertTrue(summary.contains("100 % of the work is done"), summary);
    assertTrue(summary.contains("Nothing is left; re-evaluation"), summary);
    for (Dom band : page.all(Dom.ofClass(".//*", "band"))) {
      assertTrue(band.attribute("class").endsWith(" done"), band.attribute("class"));
    }
  }

  /** Invented in {@link ProgressSample}: half of a pass, an area not begun, a block that failed. */
  @Test
  void whatWasLeftGivenFoundAndCorrectedIsSaid() throws Exception {
    CourseLog log = ProgressSample.of("half");
    Dom page = progress(log);
    List<String> left =
        page.all(Dom.ofClass(".//div", "left-over") + "//li").stream().map(Dom::text).toList();
    assertEquals(4, left.size());
    assertTrue(left.get(0).startsWith("UR posterior, fine, of visit 1: "), left.get(0));
    assertEquals(4, json(log).get("leftOver").size());
    Dom row = page.one(".//tr[@data-visit='1']");
    assertTrue(row.text().contains("not done UR anterior"), row.text());
    assertTrue(row.text().contains("2026-03-09 09:30, 70 min, C2"), row.text());
    assertTrue(row.text().contains("2026-03-10, C3"), row.text());
    assertTrue(row.text().contains(ProgressSample.NOTE), row.text());

    List<String> given =
        page.all(Dom.ofClass(".//table", "given") + "/tbody/tr").stream().map(Dom::text).toList();
    assertEquals("Visit 1, 2026-03-10", given.get(0));
    assertTrue(given.get(1).endsWith("1.350.9"), given.get(1));
    assertTrue(given.get(2).endsWith("1.051.051 of the 2 here did not take"), given.get(2));
    assertTrue(
        given.get(3).endsWith("–0.81 of the 2 here did not take; not planned"), given.get(3));
    assertTrue(given.get(4).endsWith("0.50.5"), given.get(4));
    assertTrue(given.get(5).endsWith("0.3–not given"), given.get(5));
    // 0.9 + 1.05 + 0.5 mL of 20 mg/mL; 0.8 mL of 40 mg/mL.
    assertTrue(given.get(6).contains(": 49 of at most "), given.get(6));
    // One row an agent.
    assertTrue(given.get(7).contains(": 32 of at most "), given.get(7));
    assertTrue(given.get(8).contains("shares together "), given.get(8));

    String found = page.one(Dom.ofClass(".//ul", "found")).text();
    assertTrue(found.contains("The infraorbital right did not take"), found);
    assertTrue(found.contains("16 facial distal 8 mm, bleeding"), found);
    String corrected = page.one(Dom.ofClass(".//ul", "corrections")).text();
    assertTrue(corrected.contains("entry 4 in place of entry 3 (mistyped)"), corrected);
    assertTrue(corrected.endsWith("minutes: 46 → 76"), corrected);
    List<Dom> entries = page.all(Dom.ofClass(".//ol", "log") + "/li");
    assertEquals(log.entries().size(), entries.size());
    assertTrue(entries.get(2).text().endsWith("corrected by entry 4"), entries.get(2).text());
    Dom time = page.all(Dom.ofClass(".//table", "times") + "/tbody/tr").get(0);
    assertEquals("76 min", time.cells().get(4));
    assertEquals("6 min over, not all done", time.cells().get(5));
    Dom third = page.all(Dom.ofClass(".//table", "times") + "/tbody/tr").get(2);
    assertEquals("60 min; the plan asks for 80", third.cells().get(2));
    assertEquals("–", third.cells().get(3), "no chance for a time that the plan did not ask for");
  }

  @Test
  void restagedCourseSaysWhatChangedAndLeavesNothingOver() throws Exception {
    CourseLog log = ProgressSample.of("restaged");
    Dom page = progress(log);
    assertEquals(List.of(), page.all(Dom.ofClass(".//div", "left-over")));
    assertEquals(0, json(log).get("leftOver").size());
    assertTrue(page.text().contains("How the plan changed"), page.text());
    double before = json(ProgressSample.of("half")).get("shareDone").asDouble();
    assertEquals(before, json(log).get("shareDone").asDouble(), 0.05);
  }

  @Test
  void teethAreNamedAsTheChartNamesThem() throws Exception {
    Dom page = progress(ProgressSample.of("universal"));
    // Tooth 16 of ISO 3950 is 3 of the universal numbering.
    String found = page.one(Dom.ofClass(".//ul", "found")).text();
    assertTrue(found.contains("3 facial mesial 7 mm"), found);
    assertTrue(found.contains("The inferior alveolar right did not take"), found);
    assertFalse(page.text().contains("16 facial"), page.text());
  }

  @Test
  void patientIsToldWhatIsToComeAndWhenAndNothingThatWasFound() throws Exception {
    CourseLog log = ProgressSample.of("half");
    for (String language : Language.codes()) {
      Dom page = Dom.of(ProgressSample.html(log, language)).one("//section[@id='patient']");
      List<Dom> rows = page.all(".//tbody/tr");
      assertEquals(2, rows.size());
      String english = "Thursday 19 March 2026, 09:30";
      String german = "Donnerstag, 19. März 2026, 09:30 Uhr";
      assertEquals(language.equals("en") ? english : german, rows.get(0).cells().get(1));
      assertFalse(page.text().contains("16"), page.text());
      assertFalse(page.text().contains(ProgressSample.NOTE), page.text());
    }
    Dom after = Dom.of(ProgressSample.html("finished")).one("//section[@id='patient']");
    assertTrue(after.text().contains("3 visits are done; no visit is left."), after.text());
    assertEquals(List.of(), after.all(".//tbody/tr"));
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2, 3})
  void hostileTextArrivesAsText(int index) throws Exception {
    String text = HostileText.ALL.get(index);
    Dom page = Dom.of(ProgressSample.html(HostileText.log(text), "en"));
    assertEquals(List.of(), page.all("//script | //img | //b[text()='x']"));
    String shown = text.replaceAll("\\s+", " ");
    Set<String> places = new TreeSet<>();
    for (String place : List.of("course-visits", "given", "corrections", "log", "cautions")) {
      Dom part = page.one(Dom.ofClass("//*", place));
      if (part.text().contains(shown)) {
        places.add(place);
      }
    }
    assertEquals(
        new TreeSet<>(Set.of("course-visits", "given", "corrections", "log", "cautions")), places);
  }

  @Test
  void pageIsSelfContainedAndAProposal() throws Exception {
    Dom page = Dom.of(ProgressSample.html("half"));
    assertEquals(
        List.of(),
        page.all(
            "//script | //link | //img | //*[@src] | //*[@href and not(starts-with(@href, '#'))]"));
    assertTrue(
        page.all(Dom.ofClass("//p", "proposal")).get(0).text().contains("licensed clinician"));
    assertEquals(ProgressSample.html("half"), ProgressSample.html("half"));
    assertThrows(
        IllegalArgumentException.class,
        () ->
            ProgressPages.of(
                ProgressSample.of("fresh"),
                EnumSet.noneOf(ProgressKind.class),
                Language.english()));
  }
}
