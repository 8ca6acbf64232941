package quadrille.facts.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.work.WorkPlanner;

/** Figures worked out by hand from two small charts. */
final class ReassessmentTest {

  private static Chart chart(String teeth) throws Exception {
    return ChartReader.read(
        "a test.json",
        """
        {"schema": "quadrille/chart/1", "case": "K-1", "numbering": "iso3950",
         "patient": {"ageYears": 50, "weightKg": 70}, "teeth": [%s]}
        """
            .formatted(teeth));
  }

  private static String tooth(String code, String facial, String lingual) {
    return "{\"tooth\": \"%s\", \"deposit\": \"light\", \"facial\": {%s}, \"lingual\": {%s}}"
        .formatted(code, facial, lingual);
  }

  private static String mm(String depths) {
    return "\"depthMm\": [" + depths + "]";
  }

  private static String mm(String depths, String bleeding) {
    return mm(depths) + ", \"bleeding\": [" + bleeding + "]";
  }

  private static Chart before() throws Exception {
    return chart(
        String.join(
            ",",
            tooth("16", mm("6, 5, 7", "true, true, true"), mm("5, 3, null", "true, false, false")),
            tooth("31", mm("2, 2, 4", "false, false, true"), mm("3, 3, 3")),
            tooth("36", mm("5, 5, 5"), mm("3, 3, 3"))));
  }

  /**
   * Pockets before: 16 has 6, 5, 7 and 5; 36, which is gone, counts in nothing. Afterwards these
   * are 4 without bleeding (closed), 4 with bleeding (open), 5 (open) and 3 (closed). 31 has a new
   * one of 5.
   */
  private static Chart after() throws Exception {
    return chart(
        String.join(
            ",",
            tooth("16", mm("4, 4, 5", "false, true, false"), mm("3, 3, 4")),
            tooth("31", mm("2, 2, 5"), mm("3, 3, 3")),
            tooth("41", mm("3, 3, 3"), mm("3, 3, 3")),
            "{\"tooth\": \"36\", \"status\": \"missing\"}"));
  }

  @Test
  void countsAreAsWorkedOutByHand() throws Exception {
    Reassessment.Figures all = Reassessment.of(before(), after()).all();
    assertEquals(11, all.sites());
    assertEquals(4, all.pocketsBefore());
    assertEquals(2, all.closed());
    assertEquals(2, all.pocketsAfter());
    assertEquals(1, all.newPockets());
    assertEquals(5, all.bleedingBefore());
    assertEquals(1, all.bleedingAfter());
    assertEquals(0.5, all.closure());
    // 6+5+7+5+3 + 2+2+4+3+3+3 = 43 before; 4+4+5+3+3 + 2+2+5+3+3+3 = 37 afterwards.
    assertEquals((37 - 43) / 11.0, all.meanChange(), 1e-12);
    // Over the four pockets: 23 before, 4+4+5+3 = 16 afterwards.
    assertEquals(-7 / 4.0, all.meanPocketChange(), 1e-12);
  }

  @Test
  void areasAddUpAndTellTheirOwn() throws Exception {
    Reassessment reassessment = Reassessment.of(before(), after());
    assertEquals(
        List.of("UR posterior 5 4 2 1", "LL anterior 6 0 0 1", "LR anterior 0 0 0 0"),
        reassessment.areas().stream()
            .map(
                one ->
                    one.area()
                        + " "
                        + one.figures().sites()
                        + " "
                        + one.figures().pocketsBefore()
                        + " "
                        + one.figures().closed()
                        + " "
                        + one.figures().pocketsAfter())
            .toList());
    assertNull(reassessment.areas().get(1).figures().closure());
    assertEquals(1, reassessment.notCompared());
    assertEquals(List.of(Tooth.ofIso(36)), reassessment.teethGone());
    assertEquals(List.of(Tooth.ofIso(41)), reassessment.teethNew());
  }

  @Test
  void residualSitesAreDeepOrBleedAtFour() throws Exception {
    assertEquals(
        List.of("16 FACIAL 1 5 4 true", "16 FACIAL 2 7 5 false", "31 FACIAL 2 4 5 false"),
        Reassessment.of(before(), after()).residual().stream()
            .map(
                one ->
                    one.tooth()
                        + " "
                        + one.aspect()
                        + " "
                        + one.site()
                        + " "
                        + one.beforeMm()
                        + " "
                        + one.afterMm()
                        + " "
                        + one.bleeding())
            .toList());
  }

  @Test
  void aMouthThatDidNotChangeHasNotChanged() throws Exception {
    Reassessment same = Reassessment.of(before(), before());
    assertEquals(0, same.all().closed());
    assertEquals(0, same.all().newPockets());
    assertEquals(0.0, same.all().meanChange());
  }

  /** Only the teeth with a residual site get work, and only these sites keep their depth. */
  @Test
  void theRetreatmentsChartPlansResidualSitesOnly() throws Exception {
    Chart again = Reassessment.retreatment(after());
    assertEquals(again, ChartReader.read("again.json", ChartWriter.json(again)));
    assertEquals("K-1, residual sites only", again.caseName());
    var work = WorkPlanner.plan(again, PracticeReader.defaults(), Area.of(again));
    assertEquals(
        "16 31",
        work.steps().stream()
            .flatMap(step -> step.teeth().stream())
            .distinct()
            .sorted()
            .map(Tooth::toString)
            .collect(Collectors.joining(" ")));
    assertEquals(
        List.of(3, 4, 5),
        again.tooth(Tooth.ofIso(16)).orElseThrow().facial().sites().stream()
            .map(site -> site.depthMm())
            .toList());
    assertTrue(
        again.tooth(Tooth.ofIso(41)).orElseThrow().sites().stream().noneMatch(s -> s.bleeding()));
  }
}
