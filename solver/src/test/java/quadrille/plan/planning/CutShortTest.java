package quadrille.plan.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.DemoMouths;
import quadrille.plan.audit.Audit;
import quadrille.plan.course.Course;
import quadrille.plan.planning.PlanOutcome.NoPlan;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.staging.Effort;
import quadrille.seeking.SearchStop;

final class CutShortTest {
  private static final Practice PRACTICE = PracticeReader.defaults();

  private final SearchStop stop = new SearchStop();

  private PlanOutcome plan(Chart chart, VisitRange visits, Progress progress) throws Exception {
    return new CoursePlanner(Effort.QUICK, 1, stop, progress).plan(chart, PRACTICE, visits);
  }

  @Test
  void aStopBeforeTheSearchStillGivesACourseThatKeepsEveryRule() throws Exception {
    Chart chart = DemoMouths.chart("typical.json");
    stop.ask();
    Course course =
        assertInstanceOf(Planned.class, plan(chart, VisitRange.USUAL, Progress.UNHEARD)).course();
    assertTrue(course.cutShort());
    assertEquals(List.of(), Audit.audit(course, chart, PRACTICE));
  }

  @Test
  void aStopWithACourseInHandSeeksNoOtherNumberOfVisits() throws Exception {
    Chart chart = DemoMouths.chart("typical.json");
    List<String> heard = new ArrayList<>();
    Course course =
        assertInstanceOf(
                Planned.class,
                plan(
                    chart,
                    new VisitRange(3, 6),
                    (tried, of, best) -> {
                      heard.add(tried + " of " + of + (best == null ? "" : ", best"));
                      stop.ask();
                    }))
            .course();
    assertEquals(List.of("1 of 4, best", "2 of 4, best"), heard);
    assertTrue(course.cutShort());
    assertEquals(List.of(), Audit.audit(course, chart, PRACTICE));
  }

  @Test
  void aStopWithNoCourseInHandSaysSoAndTriesNoRemedies() throws Exception {
    stop.ask();
    NoPlan none =
        assertInstanceOf(
            NoPlan.class,
            plan(DemoMouths.chart("too-few-visits.json"), VisitRange.exactly(2), Progress.UNHEARD));
    assertTrue(none.cutShort());
    assertEquals(List.of(), none.remedies());
  }

  @Test
  void aSearchThatIsDoneIsNotCutShort() throws Exception {
    Chart chart = DemoMouths.chart("mild-one-visit.json");
    Course course =
        assertInstanceOf(Planned.class, plan(chart, VisitRange.exactly(1), Progress.UNHEARD))
            .course();
    assertFalse(course.cutShort());
    stop.ask();
    Course stopped =
        assertInstanceOf(Planned.class, plan(chart, VisitRange.exactly(1), Progress.UNHEARD))
            .course();
    assertFalse(stopped.cutShort());
    assertEquals(course.visits(), stopped.visits());
  }
}
