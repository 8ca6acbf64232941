package quadrille.diary.book;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.DemoMouths;
import quadrille.plan.course.Course;
import quadrille.plan.course.NumbSide;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;

/** What a planned course asks of a diary. */
final class CourseRequestTest {

  /** H1 over the day, where a practice lets all visits be on one. */
  @Test
  void visitsOfOneDayNumbOneSide() throws Exception {
    Practice oneDay =
        PracticeReader.read(
            "one day",
            """
            {"schema": "quadrille/practice/1", "appointments": {
              "gapMinDays": {"value": 0, "source": "ours"},
              "gapMaxDays": {"value": 0, "source": "ours"}}}
            """);
    Course course =
        ((Planned)
                new CoursePlanner(Effort.QUICK)
                    .plan(DemoMouths.chart("typical.json"), oneDay, VisitRange.exactly(3)))
            .course();
    List<NumbSide> sides = course.visits().stream().map(visit -> visit.numbSide()).toList();
    assertTrue(sides.contains(NumbSide.LEFT) && sides.contains(NumbSide.RIGHT), sides.toString());
    LocalDate day = LocalDate.of(2026, 3, 2);
    List<VisitRequest> visits =
        CourseRequest.of(
                course,
                new SterileStock(60, List.of()),
                day,
                day,
                Availability.ANY,
                Preferences.NONE)
            .visits();
    for (int i = 1; i < visits.size(); i++) {
      int place = i;
      boolean other =
          sides.subList(0, i).stream()
              .anyMatch(
                  side ->
                      side != NumbSide.NONE
                          && sides.get(place) != NumbSide.NONE
                          && side != sides.get(place));
      assertEquals(other ? 1 : 0, visits.get(i).gapMinDays());
      assertTrue(visits.get(i).gapMaxDays() >= visits.get(i).gapMinDays());
    }
    assertEquals(0, visits.get(0).gapMinDays());
  }
}
