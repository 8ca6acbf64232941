package quadrille.plan.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Pass;
import quadrille.plan.course.Course;
import quadrille.plan.work.StepAspect;

/** By rule, then the whole course before its visits, then as found. */
final class FindingsTest {

  private static Course course(int... numbers) {
    PlanBuilder plan = new PlanBuilder(new SmallChart().build(), new SmallPractice().build());
    for (int ignored : numbers) {
      plan.visit().step("LL posterior", Pass.FINE, StepAspect.FACIAL);
    }
    Course course = plan.course();
    for (int i = 0; i < numbers.length; i++) {
      int number = numbers[i];
      course = Courses.parts(course, i + 1, visit -> visit.number = number);
    }
    return course;
  }

  private static List<String> lines(Course course) {
    Findings findings = new Findings(course, Numbering.ISO3950);
    findings.visit(Rule.WORK, 2, "second");
    findings.visit(Rule.WORK, 1, "first");
    findings.visit(Rule.WORK, 1, "once more");
    findings.visit(Rule.WORK, 1, "first");
    findings.course(Rule.WORK, "all");
    findings.visit(Rule.H1, 2, "before");
    return findings.list().stream().map(one -> one.visit() + " " + one.message()).toList();
  }

  @Test
  void findingsAreSortedAndEachIsToldOnce() {
    assertEquals(
        List.of("2 before", "null all", "1 first", "1 once more", "2 second"), lines(course(1, 2)));
  }

  @Test
  void visitsHaveTheirOwnNumbersWhereThoseRise() {
    assertEquals(
        List.of("7 before", "null all", "4 first", "4 once more", "7 second"), lines(course(4, 7)));
    assertEquals(lines(course(1, 2)), lines(course(4, 4)));
  }
}
